import { expect, test } from 'vitest';
import { lookSchema, sharesToOriginal } from '../../../look/index.ts';
import { sampleFrame } from '../../testing/sample-frame.ts';
import { placingOf } from './placing.ts';

const rendered = sampleFrame('F1', 0).picture;
const whole = { widthPx: 6000, heightPx: 4000 };
const shown = { width: 6000, height: 4000 };

function placed(geometry: object): ReturnType<typeof placingOf> {
  const look = lookSchema.parse({ version: 2, title: 'Placed', geometry });
  if (rendered.state !== 'rendered') throw new Error('the sample is rendered');
  const toOriginal = [...sharesToOriginal(look.geometry, whole)];
  return placingOf({ ...rendered, original: { width: 6000, height: 4000, toOriginal } }, shown);
}

test('of a crop to the right half, what lies in its middle lies at three quarters of the original', () => {
  // 4000 of 6000 wide, moved to the right end: from 1/3 to 1.
  const placing = placed({ crop: { across: 1, down: 1, size: 1, centreX: 1, centreY: 0.5 } });
  expect(placing?.isPlain).toBe(false);
  const at = placing?.toOriginal({ x: 0.5, y: 0.5 });
  expect(at?.x).toBeCloseTo(2 / 3, 9);
  expect(at?.y).toBeCloseTo(0.5, 9);
  expect(placing?.toShown({ x: 1 / 3, y: 0 }).x).toBeCloseTo(0, 9);
  expect(placing?.toShown({ x: 0, y: 0 }).x).toBeCloseTo(-0.5, 9);
});

test('turned clockwise by 10 degrees, a place right of the middle lies lower in the picture shown', () => {
  const placing = placed({ straightenDeg: 10 });
  const middle = placing?.toShown({ x: 0.5, y: 0.5 });
  expect(middle?.x).toBeCloseTo(0.5, 4);
  expect(middle?.y).toBeCloseTo(0.5, 4);
  const right = placing?.toShown({ x: 0.6, y: 0.5 });
  if (right === undefined) throw new Error('there is a placing');
  // In pixels of the original, turned by hand: 600 px to the right become 600 cos 10° across and 600 sin 10° down.
  const { width, height } = sizeAt10;
  expect((right.x - 0.5) * width).toBeCloseTo(600 * Math.cos(Math.PI / 18), 0);
  expect((right.y - 0.5) * height).toBeCloseTo(600 * Math.sin(Math.PI / 18), 0);
  const back = placing?.toOriginal(right);
  expect(back?.x).toBeCloseTo(0.6, 9);
  expect(back?.y).toBeCloseTo(0.5, 9);
});

/** The largest rectangle of 3:2 in one of 6000 x 4000 turned by 10°: 1 / (cos + 1.5 sin) of it, worked out by hand. */
const share = 1 / (Math.cos(Math.PI / 18) + 1.5 * Math.sin(Math.PI / 18));
const sizeAt10 = { width: 6000 * share, height: 4000 * share };

test('a picture that was noted before its place was told has none; one that is whole lies where it lies', () => {
  if (rendered.state !== 'rendered') throw new Error('the sample is rendered');
  expect(
    placingOf({ ...rendered, original: { width: 6000, height: 4000, toOriginal: null } }, shown),
  ).toBeNull();
  expect(placingOf(rendered, shown)?.isPlain).toBe(true);
  expect(placingOf(rendered, shown)?.toShown({ x: 0.25, y: 0.75 })).toEqual({ x: 0.25, y: 0.75 });
});
