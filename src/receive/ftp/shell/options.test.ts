import { expect, test } from 'vitest';
import { plainAddress } from '../../shell/addresses.ts';
import { defaultFtpLimits } from '../core/limits.ts';
import { resolveFtpDoorOptions } from './options.ts';

const options = { host: '127.0.0.1', port: 0, passive: { from: 0, to: 0 } };

test('options come out complete and frozen, with what was asked for in place of the defaults', () => {
  const resolved = resolveFtpDoorOptions({ ...options, limits: { idleMs: 400_000 } });
  expect(resolved.limits).toEqual({ ...defaultFtpLimits, idleMs: 400_000 });
  expect([Object.isFrozen(resolved), Object.isFrozen(resolved.limits)]).toEqual([true, true]);
});

test.each([
  [{ port: -1 }],
  [{ port: 65_536 }],
  [{ port: 2121.5 }],
  [{ passive: { from: 50_001, to: 50_000 } }],
  [{ passive: { from: 0, to: 10 } }],
  [{ passive: { from: 65_000, to: 65_536 } }],
  [{ limits: { idleMs: 0 } }],
  [{ limits: { stallMs: Number.NaN } }],
  [{ limits: { buffersPerUpload: 1 } }],
])('options no door can be opened with are refused: %j', (wrong) => {
  expect(() => resolveFtpDoorOptions({ ...options, ...wrong })).toThrow(
    expect.objectContaining({ code: 'bad-option' }),
  );
});

test('the ends of each range are taken', () => {
  for (const right of [
    { port: 65_535 },
    { passive: { from: 50_000, to: 50_000 } },
    { limits: { buffersPerUpload: 2 } },
  ]) {
    expect(() => resolveFtpDoorOptions({ ...options, ...right })).not.toThrow();
  }
});

test('an IPv4 client of a dual-stack door has a dotted address (RFC 4291 section 2.5.5.2)', () => {
  expect(plainAddress('::ffff:192.0.2.7')).toBe('192.0.2.7');
  expect(plainAddress('2001:db8::7')).toBe('2001:db8::7');
  expect(plainAddress(undefined)).toBe('');
});
