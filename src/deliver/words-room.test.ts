import { expect, test } from 'vitest';
import type { CopySpace } from '../facts/index.ts';
import { wordsRoomFindings } from './words-room.ts';

const picture = { widthPx: 1000, heightPx: 500 };
const whole = { window: { leftPx: 0, topPx: 0, ...picture } };
const box = { left: 0.4, top: 0.3, right: 0.7, bottom: 0.8 };
const inRoom = (side: CopySpace['side'], percent: number): object[] => [
  { code: 'deliver.subject-in-words-room', args: { side, percent } },
];

// By hand: the box begins 40 % from the left, 30 % from the top and ends 30 % from the right, 20 % from the bottom.
test.each([
  ['left', 50, 20],
  ['top', 40, 25],
  ['right', 40, 25],
  ['bottom', 40, 50],
] as const)(
  'a subject that reaches into room at the %s is said, with how much of its depth',
  (side, sharePercent, percent) => {
    expect(wordsRoomFindings(picture, box, whole, { side, sharePercent })).toEqual(inRoom(side, percent));
  },
);

test.each([
  ['left', 40],
  ['top', 30],
  ['right', 30],
  ['bottom', 20],
] as const)(
  'nothing is said where the room at the %s ends where the subject begins',
  (side, sharePercent) => {
    expect(wordsRoomFindings(picture, box, whole, { side, sharePercent })).toEqual([]);
    // Half a per cent of the picture is no more than the box is sure of.
    expect(wordsRoomFindings(picture, box, whole, { side, sharePercent: sharePercent + 0.4 })).toEqual([]);
    expect(wordsRoomFindings(picture, box, whole, { side, sharePercent: sharePercent + 0.6 })).toHaveLength(
      1,
    );
  },
);

test('the room is that of the delivered picture, cut out of the frame or reaching beyond it', () => {
  const room = { side: 'left', sharePercent: 40 } as const;
  // The subject begins at 400 px: 25 % into a window from 200 px to 1000 px, so 15 of 40 % are taken.
  const cut = { window: { leftPx: 200, topPx: 0, widthPx: 800, heightPx: 500 } };
  expect(wordsRoomFindings(picture, box, cut, room)).toEqual(inRoom('left', 38));
  // 500 px of backdrop to its left: it begins at 60 %.
  const extended = { window: { leftPx: -500, topPx: 0, widthPx: 1500, heightPx: 500 } };
  expect(wordsRoomFindings(picture, box, extended, room)).toEqual([]);
});

test('a subject that is all in the room takes all of its depth, one outside of what is delivered none', () => {
  const all = { left: 0, top: 0.3, right: 0.1, bottom: 0.8 };
  expect(wordsRoomFindings(picture, all, whole, { side: 'left', sharePercent: 33 })).toEqual(
    inRoom('left', 100),
  );
  const beside = { window: { leftPx: 200, topPx: 0, widthPx: 800, heightPx: 500 } };
  expect(wordsRoomFindings(picture, all, beside, { side: 'left', sharePercent: 33 })).toEqual([]);
});

test('a subject that nobody could tell is said, and nothing where no room is kept', () => {
  expect(wordsRoomFindings(picture, null, whole, { side: 'top', sharePercent: 33 })).toEqual([
    { code: 'deliver.words-room-not-told', args: { side: 'top' } },
  ]);
  expect(wordsRoomFindings(picture, null, whole, null)).toEqual([]);
  expect(wordsRoomFindings(picture, box, whole, null)).toEqual([]);
});
