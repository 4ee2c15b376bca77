import { expect, test } from 'vitest';
import { boxShown, cropIn, cropOfDelivery, maskOf } from './delivery-cut.ts';
import { subjectShown } from './subject-shown.ts';

const landscape = { widthPx: 600, heightPx: 400 };

test('a shape cuts the middle out of the picture: a square of 600 by 400 is 400 wide', () => {
  expect(cropIn({ width: 1, height: 1 }, landscape, null)).toEqual({
    left: expect.closeTo(1 / 6, 12),
    top: 0,
    width: expect.closeTo(400 / 600, 12),
    height: 1,
  });
});

test('a delivery of an exact size cuts its shape out: 300 by 300 of 600 by 400 is the middle 400, also where it is shown smaller', () => {
  const exact = { kind: 'exact', widthPx: 300, heightPx: 300, fillPercent: null } as const;
  const wish = { size: exact, enlarge: false, background: { kind: 'as-photographed' } } as const;
  for (const scale of [1, 0.5]) {
    const picture = { widthPx: 600 * scale, heightPx: 400 * scale };
    expect(cropOfDelivery(wish, picture, null)).toEqual({
      left: expect.closeTo(1 / 6, 2),
      top: 0,
      width: expect.closeTo(2 / 3, 2),
      height: 1,
    });
  }
  const white = { kind: 'white', leastCode: 250, darkPercentMax: 0, extend: true } as const;
  expect(cropOfDelivery({ ...wish, background: white }, landscape, null)).toBeNull();
});

test('a delivery that puts white around the picture, or takes every pixel, cuts nothing; nor does one nobody knows', () => {
  for (const delivery of ['web-shop', 'print', 'social', 'for the aunt'])
    expect(cropIn({ delivery }, landscape, null)).toBeNull();
  expect(cropIn(null, landscape, null)).toBeNull();
});

test('a delivery that fills its frame with the subject is cut about it: 80 of 100 px are what 50 of 600 by 400 fill', () => {
  const size = { kind: 'exact', widthPx: 100, heightPx: 100, fillPercent: 80 } as const;
  const wish = { size, enlarge: true, background: { kind: 'as-photographed' } } as const;
  // 200 to 250 px across, 100 to 150 px down: with a quarter more that is 62.5 px about its middle.
  const subject = { left: 200 / 600, top: 100 / 400, right: 250 / 600, bottom: 150 / 400 };
  const cut = cropOfDelivery(wish, landscape, subject);
  expect(cut?.width).toBeCloseTo(62.5 / 600, 2);
  expect(cut?.height).toBeCloseTo(62.5 / 400, 2);
  expect((cut?.left ?? 0) + (cut?.width ?? 0) / 2).toBeCloseTo(225 / 600, 2);
  expect((cut?.top ?? 0) + (cut?.height ?? 0) / 2).toBeCloseTo(125 / 400, 2);
});

test('copy space is the delivery’s own, until somebody chooses a side', () => {
  const banner = { delivery: 'banner' };
  expect(maskOf(banner, null, landscape, null)).toEqual({
    crop: { left: 0, top: expect.closeTo(0.08, 2), width: 1, height: expect.closeTo(0.84375, 2) },
    copySpace: { side: 'left', sharePercent: 33 },
  });
  expect(maskOf(banner, 'top', landscape, null).copySpace).toMatchObject({ side: 'top' });
  expect(maskOf({ width: 1, height: 1 }, null, landscape, null).copySpace).toBeNull();
  expect(maskOf(null, null, landscape, null)).toEqual({ crop: null, copySpace: null });
});

test('the subject lies where the look shows it: in the right half, seen alone, it is twice as wide', () => {
  const box = { left: 0.6, top: 0.2, right: 0.8, bottom: 0.7 };
  expect(boxShown(box, ({ x, y }) => ({ x: x * 2 - 1, y }))).toEqual({
    left: expect.closeTo(0.2, 12),
    top: 0.2,
    right: expect.closeTo(0.6, 12),
    bottom: 0.7,
  });
  expect(boxShown(box, ({ x, y }) => ({ x: x * 2, y }))).toBeNull();
  expect(subjectShown({ readings: {} }, null)).toBeNull();
});
