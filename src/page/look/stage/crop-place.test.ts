import { expect, test } from 'vitest';
import { defaultLook, type Look, placeOf } from '../../../look/index.ts';
import { type Crop, cropBox, movedCrop, scaledCrop, sizedCrop } from './crop-place.ts';

type Geometry = Look['geometry'];
const full = { widthPx: 6000, heightPx: 4000 };
const square: Crop = { across: 1, down: 1, size: 0.5, centreX: 0.5, centreY: 0.5 };
const geometryOf = (crop: Crop, parts: Partial<Geometry> = {}): Geometry => ({
  ...defaultLook.geometry,
  ...parts,
  crop,
});
const withCrop = (geometry: Geometry, crop: Crop | null): Geometry => ({ ...geometry, crop });

// By hand: half of the largest square of 6000 x 4000 is 2000 px, a third of the width and half of the height.
test('half the largest square about the middle lies from a third to two thirds, and from a quarter to three', () => {
  const box = cropBox(geometryOf(square), full);
  expect(box.left).toBeCloseTo(1 / 3, 6);
  expect(box.right).toBeCloseTo(2 / 3, 6);
  expect([box.top, box.bottom]).toEqual([0.25, 0.75]);
});

test('a frame that is moved goes with the hand and stops at the picture’s edge', () => {
  const geometry = geometryOf(square);
  expect(movedCrop(geometry, full, 0.1, -0.05)).toEqual({ ...square, centreX: 0.6, centreY: 0.45 });
  // Half the frame from the edges: an arrow the other way moves it at once.
  expect(movedCrop(geometry, full, 9, 9)).toEqual({ ...square, centreX: 0.8333, centreY: 0.75 });
  const far = cropBox(withCrop(geometry, movedCrop(geometry, full, 9, 9)), full);
  expect(far.right).toBeCloseTo(1, 3);
  expect(far.bottom).toBeCloseTo(1, 3);
  expect(far.right - far.left).toBeCloseTo(1 / 3, 3);
});

test('in a picture that is flipped or turned, right is where it is seen', () => {
  const flipped = geometryOf(square, { flip: 'left-right' });
  expect(movedCrop(flipped, full, 0.1, 0)?.centreX).toBeCloseTo(0.4, 4);
  for (const parts of [{ flip: 'left-right' }, { straightenDeg: 7 }] as const) {
    const geometry = geometryOf(square, parts);
    const before = cropBox(geometry, full);
    const after = cropBox(withCrop(geometry, movedCrop(geometry, full, 0.1, 0)), full);
    expect(after.left - before.left).toBeCloseTo(0.1, 3);
    expect(after.top - before.top).toBeCloseTo(0, 3);
  }
});

test.each([
  { x: -1, y: -1 },
  { x: 1, y: -1 },
  { x: -1, y: 1 },
  { x: 1, y: 1 },
] as const)(
  'a corner ($x, $y) that is drawn leaves the one across where it is, and the ratio as it is',
  (corner) => {
    const geometry = geometryOf(square);
    const before = cropBox(geometry, full);
    const [x, y] = [corner.x > 0 ? before.right : before.left, corner.y > 0 ? before.bottom : before.top];
    // A fifth of the frame inwards, both ways.
    const made = sizedCrop(geometry, full, corner, x - (corner.x * 0.2) / 3, y - corner.y * 0.1);
    expect(made?.size).toBeCloseTo(0.4, 4);
    const after = cropBox(withCrop(geometry, made), full);
    expect(corner.x > 0 ? after.left : after.right).toBeCloseTo(corner.x > 0 ? before.left : before.right, 3);
    expect(corner.y > 0 ? after.top : after.bottom).toBeCloseTo(corner.y > 0 ? before.top : before.bottom, 3);
    const placed = placeOf(withCrop(geometry, made), full.widthPx, full.heightPx);
    expect(Math.abs(placed.widthPx - placed.heightPx)).toBeLessThanOrEqual(1);
  },
);

test('a frame grows to the edge and no further, and shrinks to a twentieth', () => {
  const geometry = geometryOf(square);
  const most = sizedCrop(geometry, full, { x: 1, y: 1 }, 5, 5);
  expect(cropBox(withCrop(geometry, most), full).bottom).toBeCloseTo(1, 3);
  expect(most?.size).toBeCloseTo(0.75, 3);
  expect(sizedCrop(geometry, full, { x: 1, y: 1 }, 0, 0)?.size).toBe(0.05);
  expect(scaledCrop(geometry, 100)?.size).toBe(1);
  expect(scaledCrop(geometry, 0.001)?.size).toBe(0.05);
  expect(scaledCrop(geometry, 1.1)?.size).toBe(0.55);
});

test('without a crop there is none to be moved', () => {
  const { geometry } = defaultLook;
  expect(movedCrop(geometry, full, 0.1, 0)).toBeNull();
  expect(sizedCrop(geometry, full, { x: 1, y: 1 }, 1, 1)).toBeNull();
  expect(scaledCrop(geometry, 2)).toBeNull();
});
