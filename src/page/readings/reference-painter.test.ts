import { expect, test } from 'vitest';
import { lookSchema, sharesToOriginal } from '../../look/index.ts';
import { sampleFrame } from '../testing/sample-frame.ts';
import { type Placing, placingOf } from './geometry/placing.ts';
import { referenceTransform } from './reference-painter.ts';

const size = { width: 6000, height: 4000 };
const rect = { left: 10, top: 20, width: 300, height: 200 };

function placed(geometry: object): Placing {
  const { picture } = sampleFrame('F1', 0);
  if (picture.state !== 'rendered') throw new Error('the sample is rendered');
  const look = lookSchema.parse({ version: 2, title: 'Placed', geometry });
  const toOriginal = [...sharesToOriginal(look.geometry, { widthPx: 6000, heightPx: 4000 })];
  const placing = placingOf({ ...picture, original: { ...size, toOriginal } }, size);
  if (placing === null) throw new Error('its place is told');
  return placing;
}

const at = (transform: ReturnType<typeof referenceTransform>, x: number, y: number) => {
  if (transform === null) return null;
  const [a, b, c, d, e, f] = transform;
  return [a * x + c * y + e, b * x + d * y + f].map((value) => Math.round(value * 100) / 100);
};

test('a reference under the same look lies on the picture, corner on corner', () => {
  const turned = placed({
    straightenDeg: 7,
    crop: { across: 3, down: 2, size: 0.6, centreX: 0.4, centreY: 0.5 },
  });
  const transform = referenceTransform({ width: 600, height: 400 }, turned, turned, rect);
  expect(at(transform, 0, 0)).toEqual([10, 20]);
  expect(at(transform, 600, 400)).toEqual([310, 220]);
});

test('a whole reference lies under a picture cut to its middle, twice as large', () => {
  const half = placed({ crop: { across: 3, down: 2, size: 0.5, centreX: 0.5, centreY: 0.5 } });
  const whole = placed({});
  const transform = referenceTransform({ width: 600, height: 400 }, whole, half, rect);
  expect(at(transform, 300, 200)).toEqual([160, 120]);
  // A quarter of its width left of the middle is the picture's left edge.
  expect(at(transform, 150, 100)).toEqual([10, 20]);
});

test('perspective that a canvas cannot draw is not drawn wrongly', () => {
  const lines = [
    [0.2, 0.1, 0.28, 0.9],
    [0.8, 0.1, 0.7, 0.9],
  ];
  expect(referenceTransform({ width: 600, height: 400 }, placed({}), placed({ lines }), rect)).toBeNull();
});
