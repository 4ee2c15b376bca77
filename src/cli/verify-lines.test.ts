import { expect, test } from 'vitest';
import type { CopiesReport } from '../keep/index.ts';
import { copiesLines, incomingLine, inOnePlaceLines } from './verify-lines.ts';

const report = (change: Partial<CopiesReport>): CopiesReport => ({
  folder: '/mnt/b',
  place: 'b',
  wasRead: true,
  isGivenUp: false,
  ofReplaced: 0,
  bad: [],
  journalIsBad: false,
  files: 2,
  bytes: 20,
  findings: [],
  setAside: 0,
  holds: [],
  ...change,
});
const about = (code: string, original: string) => ({ code, args: { original, folder: '/mnt/b' } });

test('a second place that is given up is said not to be read, and how it would be', () => {
  const [line, ...more] = copiesLines(report({ isGivenUp: true, wasRead: false }), false, new Set());
  expect(line).toContain('2 copies in /mnt/b, which is a second place no more: not read.');
  expect(more).toEqual([]);
});

test('new copies are promised where the original is good', () => {
  const missing = report({ findings: [about('copy.missing', 'a')] });
  expect(copiesLines(missing, false, new Set()).join('\n')).toContain('New copies are made');
  const altered = report({ findings: [about('copy.altered', 'a')] });
  expect(copiesLines(altered, false, new Set()).join('\n')).toContain('verify --mend');
  const mended = report({ findings: [about('copy.altered', 'a')], setAside: 1 });
  const text = copiesLines(mended, true, new Set()).join('\n');
  expect(text).toContain('Set aside in /mnt/b/set-aside: 1 copy.');
  expect(text).toContain('New copies are made');
});

test('no new copy is promised of an original that is bad too', () => {
  for (const code of ['copy.missing', 'copy.altered', 'copy.size', 'copy.unreadable'])
    for (const mend of [false, true]) {
      const text = copiesLines(report({ findings: [about(code, 'a')] }), mend, new Set(['a'])).join('\n');
      expect(text).not.toMatch(/New copies|--mend/);
      expect(text).toContain('Not to be made anew: 1 copy, since the original is bad too.');
    }
});

test('copies to look at are copies: the journal, what was replaced and a place that was not read are told apart', () => {
  const journal = { code: 'copy.journal-altered', args: { folder: '/mnt/b', name: 'x.journal' } };
  const trouble = { code: 'copy.not-set-aside', args: { original: 'a', folder: '/mnt/b', why: 'EIO' } };
  const found = [about('copy.altered', 'a'), trouble, journal];
  const lines = copiesLines(report({ findings: found, ofReplaced: 3 }), true, new Set());
  expect(lines.some((line) => /^2 copies in \/mnt\/b, .*: 1 to look at\.$/.test(line))).toBe(true);
  expect(lines).toContain('Copy of the journal in /mnt/b: 1 file to look at.');
  expect(lines).toContain('Besides, 3 copies in /mnt/b of what was replaced since: read too.');
  const away = report({ wasRead: false, findings: [{ code: 'copy.away', args: { folder: '/mnt/b' } }] });
  expect(copiesLines(away, false, new Set()).at(-1)).toMatch(/^2 copies in \/mnt\/b, .*: not read\.$/);
});

test('originals without a copy are counted where there is a second place', () => {
  expect(inOnePlaceLines(null)).toEqual([]);
  expect(inOnePlaceLines(0)).toEqual([]);
  expect(inOnePlaceLines(1)[0]).toMatch(/^1 original is in one place only/);
  expect(inOnePlaceLines(2)[0]).toMatch(/^2 originals are in one place only.*copied them/);
});

test('an empty attempt that was let go holds no bytes that might be nowhere else', () => {
  const held = { why: 'let-go', files: 1 } as const;
  expect(incomingLine({ ...held, bytes: 0 })).not.toContain('nowhere else');
  expect(incomingLine({ ...held, bytes: 1 })).toContain('nowhere else');
});
