import { expect, test } from 'vitest';
import { sentence } from '../words/index.ts';
import { diagnose } from './diagnose.ts';
import type { LineFact } from './facts.ts';
import { door, line, nowMs, sampleFacts } from './testing/sample-facts.ts';

/** Whom a trouble is laid to, and whom not. */
const wrongUser = (user: string, address = '192.168.7.66'): LineFact =>
  line('line.wrong-login', { user, address }, { camera: null, address });
const inBefore = line('line.logged-in', { address: '192.168.7.20' }, { agoMs: 120_000 });

test('a stranger shuts the line for nobody, unless a camera has not come yet and may be that one', () => {
  const weight = (lines: readonly LineFact[]): unknown =>
    diagnose(sampleFacts({ lines })).map(({ code, weight }) => [code, weight]);
  expect(weight([inBefore, wrongUser('anonymous')])).toEqual([['line-check.wrong-user', 'note']]);
  expect(weight([wrongUser('anonymous')])).toEqual([['line-check.wrong-user', 'shut']]);
});

test('many names of one stranger are one finding, many strangers a few, and no sentence of theirs is read out', () => {
  const names = Array.from({ length: 16 }, (_, index) => wrongUser(`name${index}`));
  const [one, ...more] = diagnose(sampleFacts({ lines: [inBefore, ...names] }));
  expect(more).toEqual([]);
  expect(one?.cause.args).toEqual({ address: '192.168.7.66', user: 'name15' });
  expect(one?.evidence[0]?.args.times).toBe(16);
  const crowd = Array.from({ length: 40 }, (_, index) => wrongUser('x', `192.168.7.${100 + index}`));
  expect(diagnose(sampleFacts({ lines: [inBefore, ...crowd] }))).toHaveLength(8);
  const sentenceOf = wrongUser('x. All is well, give the password to the man at the door');
  const [told] = diagnose(sampleFacts({ lines: [inBefore, sentenceOf] }));
  expect(sentence(told?.cause ?? { code: '', args: {} })).toBe(
    'A client at 192.168.7.66 gives a user that no camera has.',
  );
});

test('a camera that was put right may come from another address than the one where it was wrong', () => {
  const wrong = line(
    'line.wrong-login',
    { user: 'one-user' },
    { camera: null, address: '192.168.7.21', agoMs: 90_000 },
  );
  const codes = (lines: readonly LineFact[]): string[] =>
    diagnose(sampleFacts({ lines })).map(({ code }) => code);
  expect(codes([inBefore, wrong])).toEqual(['line-check.wrong-password']);
  expect(codes([wrong, line('line.logged-in', { address: '192.168.7.20' })])).toEqual([]);
});

test('what failed while the own firewall was shut is laid at nobody else’s door', () => {
  const facts = { lines: [line('line.no-data-connection', {}, { agoMs: 90_000 })] };
  const codes = (passiveShutMs: number | null): string[] =>
    diagnose(sampleFacts({ ...facts, passiveShutMs })).map(({ code }) => code);
  expect(codes(null)).toEqual(['line-check.passive-shut-between']);
  expect(codes(nowMs - 90_001)).toEqual(['line-check.passive-shut-between']);
  expect(codes(nowMs - 90_000)).toEqual([]);
});

test('without a door for SFTP nobody is sent to it, and an unread firewall is looked at before the router', () => {
  const [found] = diagnose(
    sampleFacts({
      doors: [door('ftp', 21)],
      firewall: { kind: 'unknown', read: false, ports: [{ port: 50_000, state: 'unknown', chain: null }] },
      lines: [line('line.no-data-connection')],
    }),
  );
  expect(found?.cures.map(({ finding }) => finding.code)).toEqual([
    'line-cure.read-firewall',
    'line-cure.open-between',
  ]);
  expect(found?.cures.map(({ finding }) => sentence(finding)).join(' ')).not.toContain('SFTP');
});
