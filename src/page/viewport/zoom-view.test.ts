import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  heldInside,
  isWhole,
  movedBy,
  pixelView,
  placeOf,
  seenPart,
  spotAt,
  wholeView,
  type ZoomStage,
  zoomedAbout,
} from './zoom-view.ts';

const stage: ZoomStage = {
  picture: { widthPx: 6000, heightPx: 4000 },
  free: { widthDevicePx: 1000, heightDevicePx: 500 },
};

const anyStage = fc.record({
  picture: fc.record({
    widthPx: fc.integer({ min: 1, max: 20_000 }),
    heightPx: fc.integer({ min: 1, max: 20_000 }),
  }),
  free: fc.record({
    widthDevicePx: fc.integer({ min: 40, max: 4000 }),
    heightDevicePx: fc.integer({ min: 40, max: 4000 }),
  }),
});
const anyView = fc.record({
  scale: fc.double({ min: 0.001, max: 50, noNaN: true }),
  centreX: fc.double({ min: -1, max: 2, noNaN: true }),
  centreY: fc.double({ min: -1, max: 2, noNaN: true }),
});
const anyPoint = fc.record({
  xDevicePx: fc.double({ min: 0, max: 1, noNaN: true }),
  yDevicePx: fc.double({ min: 0, max: 1, noNaN: true }),
});

describe('the whole picture', () => {
  test('is as large as the free space allows and lies in its middle', () => {
    // 500 / 4000 = 0.125 is the smaller of both shares; (1000 - 6000 * 0.125) / 2 = 125 stay free at either side.
    expect(wholeView(stage)).toEqual({ scale: 0.125, centreX: 0.5, centreY: 0.5 });
    expect(placeOf(wholeView(stage), stage)).toEqual({
      leftDevicePx: 125,
      topDevicePx: 0,
      widthDevicePx: 750,
      heightDevicePx: 500,
    });
  });

  test('is meant by what is hardly larger or smaller', () => {
    expect(isWhole({ scale: 0.126, centreX: 0.5, centreY: 0.5 }, stage)).toBe(true);
    expect(isWhole({ scale: 0.14, centreX: 0.5, centreY: 0.5 }, stage)).toBe(false);
  });
});

describe('pixel for pixel', () => {
  test('each pixel of the picture is one of the screen’s, on whole ones', () => {
    const place = placeOf(pixelView({ x: 0.5, y: 0.25 }, stage), stage);
    expect(place).toEqual({
      leftDevicePx: 500 - 3000,
      topDevicePx: 250 - 1000,
      widthDevicePx: 6000,
      heightDevicePx: 4000,
    });
  });

  test('a spot near a corner stays as near to the middle as the corner lets it', () => {
    expect(seenPart(pixelView({ x: 0, y: 1 }, stage), stage)).toEqual({
      leftPx: 0,
      topPx: 3500,
      rightPx: 1000,
      bottomPx: 4000,
    });
  });
});

test('what is seen lies inside the picture, and no more surround is seen than must be', () => {
  fc.assert(
    fc.property(anyStage, anyView, (any, view) => {
      const held = heldInside(view, any);
      const part = seenPart(held, any);
      expect(part.leftPx).toBeGreaterThanOrEqual(0);
      expect(part.rightPx).toBeLessThanOrEqual(any.picture.widthPx);
      const place = placeOf(held, any);
      const right = place.leftDevicePx + place.widthDevicePx;
      // One device pixel of rounding at either side, and what floating point adds to it.
      const rounding = 1 + 1e-6;
      if (place.widthDevicePx >= any.free.widthDevicePx) {
        expect(place.leftDevicePx).toBeLessThanOrEqual(rounding);
        expect(right).toBeGreaterThanOrEqual(any.free.widthDevicePx - rounding);
      } else {
        expect(Math.abs(place.leftDevicePx - (any.free.widthDevicePx - right))).toBeLessThanOrEqual(rounding);
      }
      expect(heldInside(held, any)).toEqual(held);
    }),
  );
});

test('what lies under the pointer stays there while the scale changes, unless an edge comes in', () => {
  fc.assert(
    fc.property(anyPoint, fc.double({ min: 0.3, max: 4, noNaN: true }), (share, scale) => {
      const point = { xDevicePx: share.xDevicePx * 1000, yDevicePx: share.yDevicePx * 500 };
      const from = { scale: 1, centreX: 0.5, centreY: 0.5 };
      const before = spotAt(from, point, stage);
      const after = spotAt(zoomedAbout(from, point, scale, stage), point, stage);
      expect(after.x).toBeCloseTo(before.x, 9);
      expect(after.y).toBeCloseTo(before.y, 9);
    }),
  );
});

test('the picture goes along with the hand, pixel by pixel', () => {
  const from = pixelView({ x: 0.5, y: 0.5 }, stage);
  const to = movedBy(from, { xDevicePx: 37, yDevicePx: -12 }, stage);
  const [before, after] = [placeOf(from, stage), placeOf(to, stage)];
  expect([after.leftDevicePx - before.leftDevicePx, after.topDevicePx - before.topDevicePx]).toEqual([
    37, -12,
  ]);
});

test('a picture smaller than the free space can be seen pixel for pixel too', () => {
  const small = { ...stage, picture: { widthPx: 300, heightPx: 200 } };
  expect(wholeView(small).scale).toBe(2.5);
  const view = pixelView({ x: 0.1, y: 0.1 }, small);
  expect(view).toEqual({ scale: 1, centreX: 0.5, centreY: 0.5 });
});
