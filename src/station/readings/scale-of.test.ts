import { expect, test } from 'vitest';
import type { ShotScale } from '../../facts/index.ts';
import { mmPerPxOf } from './scale-of.ts';

const scale: ShotScale = {
  shot: 'mug',
  frame: 'f',
  camera: 'cam1',
  by: 'points',
  mm: 100,
  px: 2000,
  longSidePx: 6000,
  focalLengthMm: 90,
};
const picture = (width: number, height: number) => ({
  state: 'rendered',
  width,
  height,
  source: 'raw',
  look: '',
  target: null,
  original: null,
  version: 1,
});
const row = (more = {}) => ({
  camera: 'cam1',
  capture: { focalLengthMm: 90 },
  picture: picture(6000, 4000),
  ...more,
});

// Hand derivation: 100 mm on 2000 px are 0.05 mm a pixel; a picture half as large has pixels twice as large.
test('a pixel is as large as it was told, in a smaller picture or one held upright accordingly', () => {
  expect(mmPerPxOf(row(), scale)).toBeCloseTo(0.05, 12);
  expect(mmPerPxOf(row({ picture: picture(3000, 2000) }), scale)).toBeCloseTo(0.1, 12);
  expect(mmPerPxOf(row({ picture: picture(4000, 6000) }), scale)).toBeCloseTo(0.05, 12);
});

test('a look that cuts the picture changes nothing of it: what is read lies in the whole original', () => {
  const cut = { ...picture(3000, 2000), original: { width: 6000, height: 4000 } };
  expect(mmPerPxOf(row({ picture: cut }), scale)).toBeCloseTo(0.05, 12);
});

test('of another camera, at another focal length, without a picture and where nobody told it, nothing is known', () => {
  expect(mmPerPxOf(row({ camera: 'cam2' }), scale)).toBeNull();
  expect(mmPerPxOf(row({ capture: { focalLengthMm: 92 } }), scale)).toBeNull();
  expect(mmPerPxOf(row({ capture: { focalLengthMm: 90.4 } }), scale)).toBeCloseTo(0.05, 12);
  expect(mmPerPxOf(row({ capture: null }), scale)).toBeCloseTo(0.05, 12);
  expect(mmPerPxOf(row({ picture: null }), scale)).toBeNull();
  expect(mmPerPxOf(row(), null)).toBeNull();
});
