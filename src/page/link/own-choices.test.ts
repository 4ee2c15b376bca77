import { expect, test } from 'vitest';
import type { Mark } from '../../facts/index.ts';
import { OwnChoices } from './own-choices.ts';

/** Notes what each mark was sent as having seen. */
function noting(): { seen: Mark[]; call: (seen: Mark) => Promise<void> } {
  const seen: Mark[] = [];
  return { seen, call: async (mark) => void seen.push(mark) };
}

test('a mark of one’s own counts as seen until its event came, and no longer than that may take', async () => {
  let nowMs = 0;
  const marks = new OwnChoices<Mark>(() => nowMs);
  const { seen, call } = noting();
  await marks.send({ id: 'f', shown: 'none' }, 'hero', call);
  // The page still shows what it was before.
  await marks.send({ id: 'f', shown: 'none' }, 'select', call);
  await marks.send({ id: 'g', shown: 'none' }, 'select', call);
  // Its event came, or what somebody else made of it.
  await marks.send({ id: 'f', shown: 'select' }, 'out', call);
  await marks.send({ id: 'f', shown: 'alternate' }, 'out', call);
  nowMs = 3_001;
  await marks.send({ id: 'f', shown: 'alternate' }, 'hero', call);
  expect(seen).toEqual(['none', 'hero', 'none', 'select', 'alternate', 'alternate']);
});

test('two keys in a row are two calls in a row, the second having seen the first', async () => {
  const marks = new OwnChoices<Mark>(() => 0);
  const { seen, call } = noting();
  let answer = (): void => {};
  const first = marks.send({ id: 'f', shown: 'none' }, 'hero', async (mark) => {
    await call(mark);
    await new Promise<void>((resolve) => {
      answer = resolve;
    });
  });
  const second = marks.send({ id: 'f', shown: 'none' }, 'select', call);
  await expect.poll(() => seen).toEqual(['none']);
  answer();
  await Promise.all([first, second]);
  expect(seen).toEqual(['none', 'hero']);
});

test('one that was refused was never seen', async () => {
  const marks = new OwnChoices<Mark>(() => 0);
  const { seen, call } = noting();
  await expect(
    marks.send({ id: 'f', shown: 'none' }, 'hero', () => Promise.reject(new Error('no'))),
  ).rejects.toThrow('no');
  await marks.send({ id: 'f', shown: 'none' }, 'select', call);
  expect(seen).toEqual(['none']);
});

test('after somebody else was first, what is shown counts as seen, even what was shown before one’s own', async () => {
  const marks = new OwnChoices<Mark>(() => 0);
  const { seen, call } = noting();
  await marks.send({ id: 'f', shown: 'select' }, 'alternate', call);
  const refused = marks.send({ id: 'f', shown: 'alternate' }, 'out', () => Promise.reject(new Error('no')));
  await expect(refused).rejects.toThrow('no');
  // They made it a select again.
  await marks.send({ id: 'f', shown: 'select' }, 'hero', call);
  expect(seen).toEqual(['select', 'select']);
});

test('many at once go behind what is under way of each, and what was left of them was never seen', async () => {
  const marks = new OwnChoices<Mark>(() => 0);
  const { seen, call } = noting();
  let answer = (): void => {};
  const first = marks.send({ id: 'f', shown: 'none' }, 'hero', async (mark) => {
    await call(mark);
    await new Promise<void>((resolve) => {
      answer = resolve;
    });
  });
  const both = [
    { id: 'f', shown: 'none' },
    { id: 'g', shown: 'none' },
  ] as const;
  const told: [string, Mark][][] = [];
  const many = marks.sendMany(both, 'select', async (each) => {
    told.push([...each]);
    return new Set(['g']);
  });
  await expect.poll(() => seen).toEqual(['none']);
  expect(told).toEqual([]);
  answer();
  await Promise.all([first, many]);
  await marks.sendMany(both, 'out', async (each) => {
    told.push([...each]);
    return new Set();
  });
  expect(told).toEqual([
    [
      ['f', 'hero'],
      ['g', 'none'],
    ],
    [
      ['f', 'select'],
      ['g', 'none'],
    ],
  ]);
});
