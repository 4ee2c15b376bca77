import { expect, test } from 'vitest';
import { CameraLog } from './camera-log.ts';

test('a flood of strangers leaves a camera two thirds of its page, and the newest of them are shown', () => {
  let nowMs = 0;
  const log = new CameraLog(() => ++nowMs, { note: () => {} });
  const report = (camera: string | null, code: string): void =>
    log.take({ camera, address: '192.0.2.9', connection: 1, change: 'note', finding: { code, args: {} } });
  for (let number = 0; number < 50; number += 1) report('cam1', `own ${number}`);
  for (let number = 0; number < 1000; number += 1) report(null, `stranger ${number}`);
  const codes = log.entries('cam1').map(({ finding }) => finding.code);
  expect(codes.slice(0, 2)).toEqual(['own 10', 'own 11']);
  expect(codes).toHaveLength(60);
  expect(codes.filter((code) => code.startsWith('stranger'))).toHaveLength(20);
  expect(codes.at(-1)).toBe('stranger 999');
});

test('what was not taken of a card stands while the card is out, until one is watched again or nothing is missed', () => {
  const log = new CameraLog(() => 1, { note: () => {} });
  const report = (code: string, address = '/card'): void =>
    log.take({ camera: 'cam1', address, connection: 0, change: 'note', finding: { code, args: {} } });
  expect(log.notTaken('cam1')).toBeNull();
  report('line.watch-not-taken');
  report('line.watch-away');
  report('line.watch-begun', '/other');
  expect(log.notTaken('cam1')?.code).toBe('line.watch-not-taken');
  report('line.watch-begun');
  expect(log.notTaken('cam1')).toBeNull();
  report('line.watch-not-taken');
  report('line.watch-none-missed');
  expect(log.notTaken('cam1')).toBeNull();
});

test('of a file that breaks off for the third time both log and diary say so, of each camera for itself', () => {
  const noted: unknown[] = [];
  const log = new CameraLog(() => 1, { note: ({ finding }) => void noted.push(finding.args.times) });
  const finding = { code: 'line.upload-broken-off', args: { name: 'A.DNG', bytes: 1, why: 'closed' } };
  for (const camera of ['cam1', 'cam2', 'cam1', 'cam1'])
    log.take({ camera, address: '192.0.2.9', connection: 1, change: 'note', finding });
  expect(noted).toEqual([undefined, undefined, undefined, 3]);
  expect(log.entries('cam1').at(-1)?.finding.args.times).toBe(3);
});
