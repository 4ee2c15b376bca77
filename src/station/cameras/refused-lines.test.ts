import { expect, test } from 'vitest';
import type { Finding } from '../../facts/index.ts';
import { RefusedLines, refusedLinesMax, refusedWindowMs } from './refused-lines.ts';

const wrong: Finding = { code: 'line.wrong-login', args: { address: '192.0.2.7', user: 'root' } };

test('refused clients are told up to the bound, the others as a number with the first line after it', () => {
  let nowMs = 0;
  const said: Finding[] = [];
  const lines = new RefusedLines(
    () => nowMs,
    (finding) => said.push(finding),
  );
  for (let i = 0; i < refusedLinesMax; i++) lines.take(wrong);
  expect(said).toHaveLength(refusedLinesMax);
  nowMs = refusedWindowMs - 1;
  for (let i = 0; i < 25; i++) lines.take(wrong);
  expect(said).toHaveLength(refusedLinesMax);
  nowMs = refusedWindowMs;
  lines.take(wrong);
  expect(said.slice(refusedLinesMax)).toEqual([{ code: 'line.more-refused', args: { count: 25 } }, wrong]);
});
