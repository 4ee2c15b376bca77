import { expect, test } from 'vitest';
import type { CopiesReport } from '../keep/index.ts';
import { copiesLines } from './verify-lines.ts';

const report = (change: Partial<CopiesReport>): CopiesReport => ({
  folder: '/mnt/b',
  place: 'b',
  wasRead: true,
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
