import { expect, test } from 'vitest';
import { placeDrawing, ringPx } from './place-drawing.ts';

test('margins in per cent are the box in shares', () => {
  const { box, margins } = placeDrawing(
    {
      marginLeftPercent: 20,
      marginTopPercent: 10,
      marginRightPercent: 30,
      marginBottomPercent: 5,
    },
    [],
  );
  expect(box).toEqual({ left: 0.2, top: 0.1, right: 0.7, bottom: 0.95 });
  expect(margins).toEqual({ left: 20, top: 10, right: 30, bottom: 5 });
});

test('what was not told is not drawn, and a part that moved by itself is what the arrow shows', () => {
  expect(placeDrawing({}, [])).toEqual({ box: null, margins: null, move: null, changed: [] });
  expect(placeDrawing({ marginLeftPercent: 3, shiftRightPx: 4 }, [])).toEqual({
    box: null,
    margins: null,
    move: null,
    changed: [],
  });
  const whole = { shiftRightPx: 0.1, shiftDownPx: 0 };
  expect(placeDrawing(whole, []).move).toEqual({ rightPx: 0.1, downPx: 0 });
  expect(placeDrawing({ ...whole, partRightPx: 8, partDownPx: -1 }, []).move).toEqual({
    rightPx: 8,
    downPx: -1,
  });
});

test('what is gone or new is drawn where its sentence says it is', () => {
  const found = [
    { code: 'place.moved', args: { rightPx: 20, downPx: 0 } },
    { code: 'place.part-changed', args: { acrossPercent: 76, downPercent: 40 } },
    { code: 'place.part-lost', args: { acrossPercent: 10, downPercent: 90 } },
  ];
  expect(placeDrawing({}, found).changed).toEqual([
    { x: 0.76, y: 0.4 },
    { x: 0.1, y: 0.9 },
  ]);
});

test.each([
  [0, 1],
  [1, 1],
  [1.1, 2],
  [8, 10],
  [10, 10],
  [10.2, 20],
  [49, 50],
  [260, 500],
])('a move of %s px is drawn in a ring of %s px', (rightPx, ring) => {
  expect(ringPx({ rightPx, downPx: 0 })).toBe(ring);
});
