import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cropToShape, fitBox, widthToAsk } from './fit-box.ts';

const landscape = { widthPx: 6000, heightPx: 4000 };

test('a landscape picture reaches from edge to edge of a narrow space and is centred in height', () => {
  // 900 wide at 3:2 is 600 high; (700 - 600) / 2 = 50.
  expect(fitBox(landscape, { widthCssPx: 900, heightCssPx: 700 }, 1)).toMatchObject({
    leftCssPx: 0,
    topCssPx: 50,
    widthCssPx: 900,
    heightCssPx: 600,
  });
});

test('on a screen with two device pixels per CSS pixel the canvas has twice the pixels and the same box', () => {
  const box = fitBox(landscape, { widthCssPx: 900, heightCssPx: 700 }, 2);
  expect(box).toMatchObject({ widthCssPx: 900, widthDevicePx: 1800, heightDevicePx: 1200 });
});

test('whatever the sizes, the box lies inside the space, touches two sides, and keeps the shape to one pixel', () => {
  const size = fc.integer({ min: 1, max: 20_000 });
  const space = fc.integer({ min: 1, max: 4000 });
  const ratio = fc.constantFrom(1, 1.25, 1.5, 2, 3);
  fc.assert(
    fc.property(size, size, space, space, ratio, (widthPx, heightPx, widthCssPx, heightCssPx, dpr) => {
      const box = fitBox({ widthPx, heightPx }, { widthCssPx, heightCssPx }, dpr);
      const [freeWidth, freeHeight] = [Math.floor(widthCssPx * dpr), Math.floor(heightCssPx * dpr)];
      expect(box.widthDevicePx).toBeLessThanOrEqual(Math.max(1, freeWidth));
      expect(box.heightDevicePx).toBeLessThanOrEqual(Math.max(1, freeHeight));
      expect(box.leftCssPx).toBeGreaterThanOrEqual(0);
      expect(box.topCssPx).toBeGreaterThanOrEqual(0);
      const touches = box.widthDevicePx === freeWidth || box.heightDevicePx === freeHeight;
      expect(touches).toBe(true);
      const scale = Math.min(freeWidth / widthPx, freeHeight / heightPx);
      expect(Math.abs(box.widthDevicePx - widthPx * scale)).toBeLessThanOrEqual(1);
    }),
  );
});

test('the black bars of a 4:3 preview of a 3:2 picture are cut away', () => {
  // 160 × 120 holds 3:2 as 160 × 106.67, so 6.67 rows of bar lie above and below.
  const crop = cropToShape({ widthPx: 160, heightPx: 120 }, landscape);
  expect(crop.left).toBe(0);
  expect(crop.width).toBe(160);
  expect(crop.height).toBeCloseTo(106.667, 3);
  expect(crop.top).toBeCloseTo(6.667, 3);
});

test('a bitmap of the right shape is shown whole', () => {
  expect(cropToShape({ widthPx: 600, heightPx: 400 }, landscape)).toEqual({
    left: 0,
    top: 0,
    width: 600,
    height: 400,
  });
});

test('the width asked for covers the box in steps and never exceeds the picture', () => {
  const box = fitBox(landscape, { widthCssPx: 961, heightCssPx: 2000 }, 1);
  expect(widthToAsk(box, landscape)).toBe(1280);
  expect(widthToAsk(box, { widthPx: 800, heightPx: 533 })).toBe(800);
});

test('a picture of one pixel is asked for at a width that the station takes', () => {
  const dot = { widthPx: 1, heightPx: 1 };
  expect(widthToAsk(fitBox(dot, { widthCssPx: 800, heightCssPx: 600 }, 1), dot)).toBe(16);
});
