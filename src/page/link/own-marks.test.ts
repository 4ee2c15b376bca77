import { expect, test } from 'vitest';
import type { Mark } from '../../facts/index.ts';
import { OwnMarks } from './own-marks.ts';

/** Notes what each mark was sent as having seen. */
function noting(): { seen: Mark[]; call: (seen: Mark) => Promise<void> } {
  const seen: Mark[] = [];
  return { seen, call: async (mark) => void seen.push(mark) };
}

test('a mark of one’s own counts as seen until its event came, and no longer than that may take', async () => {
  let nowMs = 0;
  const marks = new OwnMarks(() => nowMs);
  const { seen, call } = noting();
  await marks.send('f', 'none', 'hero', call);
  // The page still shows what it was before.
  await marks.send('f', 'none', 'select', call);
  await marks.send('g', 'none', 'select', call);
  // Its event came, or what somebody else made of it.
  await marks.send('f', 'select', 'out', call);
  await marks.send('f', 'alternate', 'out', call);
  nowMs = 3_001;
  await marks.send('f', 'alternate', 'hero', call);
  expect(seen).toEqual(['none', 'hero', 'none', 'select', 'alternate', 'alternate']);
});

test('two keys in a row are two calls in a row, the second having seen the first', async () => {
  const marks = new OwnMarks(() => 0);
  const { seen, call } = noting();
  let answer = (): void => {};
  const first = marks.send('f', 'none', 'hero', async (mark) => {
    await call(mark);
    await new Promise<void>((resolve) => {
      answer = resolve;
    });
  });
  const second = marks.send('f', 'none', 'select', call);
  await expect.poll(() => seen).toEqual(['none']);
  answer();
  await Promise.all([first, second]);
  expect(seen).toEqual(['none', 'hero']);
});

test('one that was refused was never seen', async () => {
  const marks = new OwnMarks(() => 0);
  const { seen, call } = noting();
  await expect(marks.send('f', 'none', 'hero', () => Promise.reject(new Error('no')))).rejects.toThrow('no');
  await marks.send('f', 'none', 'select', call);
  expect(seen).toEqual(['none']);
});
