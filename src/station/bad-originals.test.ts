import { expect, test } from 'vitest';
import { BadOriginals } from './bad-originals.ts';

function listened(): { readonly bad: BadOriginals; readonly told: string[] } {
  const bad = new BadOriginals();
  const told: string[] = [];
  bad.onChange((frame) => void told.push(`${frame} ${bad.of(frame.replace('f', 'a'))}`));
  return { bad, told };
}
const file = { arrival: 'a1', frame: 'f1' };
const other = { arrival: 'a2', frame: 'f2' };

test('each change is told once, with its frame, whoever found it first', () => {
  const { bad, told } = listened();
  bad.found(file, null, 1);
  bad.found(file, 'differs', 2);
  bad.found(file, 'differs', 3);
  bad.found(file, null, 4);
  expect(told).toEqual(['f1 differs', 'f1 null']);
});

test('what is said of them all names one and counts those that are kept', () => {
  const { bad } = listened();
  expect(bad.finding(() => 'A.DNG')).toBeNull();
  bad.allFound(
    [
      { ...file, trouble: 'differs' },
      { ...other, trouble: 'missing' },
    ],
    10,
  );
  expect(bad.finding((arrival) => `${arrival}.DNG`)).toEqual({
    code: 'keep.originals-bad',
    args: { original: 'a1.DNG', count: 2 },
  });
  // Another was sent again and stands for it.
  expect(bad.finding((arrival) => (arrival === 'a2' ? 'a2.DNG' : null))?.args).toEqual({
    original: 'a2.DNG',
    count: 1,
  });
});

test('what reading them all does not find bad is good again, but not what was found bad since it began', () => {
  const { bad, told } = listened();
  bad.allFound([{ ...file, trouble: 'differs' }], 10);
  bad.found(other, 'missing', 20);
  bad.allFound([], 15);
  expect([bad.of('a1'), bad.of('a2')]).toEqual([null, 'missing']);
  bad.allFound([{ ...file, trouble: 'unreadable' }], 30);
  expect(told).toEqual(['f1 differs', 'f2 missing', 'f1 null', 'f2 null', 'f1 unreadable']);
});
