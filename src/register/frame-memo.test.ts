import { expect, test } from 'vitest';
import { FrameMemo, framesRememberedMax } from './frame-memo.ts';

/** A memo over frames that do not exist, and how often each was read; reads and writes last as long as the test says. */
function counting() {
  const reads: string[] = [];
  const ends: (() => void)[] = [];
  let held = false;
  const memo = new FrameMemo(async (id) => {
    reads.push(id);
    if (held) await new Promise<void>((resolve) => ends.push(resolve));
    return null;
  });
  return {
    memo,
    reads,
    hold: () => {
      held = true;
    },
    endReads: () => {
      held = false;
      for (const end of ends.splice(0)) end();
    },
  };
}

test('a frame is read once between two writes, also one that is not there, and again after each', async () => {
  const { memo, reads } = counting();
  await memo.get('a');
  await memo.get('a');
  expect(reads).toEqual(['a']);
  await memo.write(async () => {});
  await memo.get('a');
  expect(reads).toEqual(['a', 'a']);
  await expect(memo.write(() => Promise.reject(new Error('the disk is full')))).rejects.toThrow('full');
  await memo.get('a');
  expect(reads).toEqual(['a', 'a', 'a']);
});

test('what was read before or beside a write is not remembered behind it', async () => {
  const { memo, reads, hold, endReads } = counting();
  hold();
  const before = memo.get('a');
  await memo.write(async () => endReads());
  await before;
  await memo.get('a');
  expect(reads).toEqual(['a', 'a']);
  await memo.write(async () => {
    await memo.get('b');
  });
  await memo.get('b');
  expect(reads).toEqual(['a', 'a', 'b', 'b']);
});

test('as many frames as the bound are remembered; one more is read each time', async () => {
  const { memo, reads } = counting();
  for (let n = 0; n <= framesRememberedMax; n++) await memo.get(String(n));
  await memo.get(String(framesRememberedMax - 1));
  expect(reads).toHaveLength(framesRememberedMax + 1);
  await memo.get(String(framesRememberedMax));
  expect(reads).toHaveLength(framesRememberedMax + 2);
});
