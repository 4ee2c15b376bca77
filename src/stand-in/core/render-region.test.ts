import { expect, test } from 'vitest';
import { frameSize } from './frame-size.ts';
import { prepareScene, renderRegion } from './render-region.ts';

const size = frameSize(0.03);
const full = {
  left: 0,
  top: 0,
  widthPx: size.widthPx + 2 * size.marginPx,
  heightPx: size.heightPx + 2 * size.marginPx,
};

test('a picture rendered in pieces, by anybody in any order, is the picture rendered at once', () => {
  const whole = renderRegion(prepareScene('mug', 'target', size), full);
  const scene = prepareScene('mug', 'target', size);
  const topRows = 57;
  const below = renderRegion(scene, { ...full, top: topRows, heightPx: full.heightPx - topRows });
  const above = renderRegion(scene, { ...full, heightPx: topRows });
  expect([...above, ...below]).toEqual([...whole]);
});

test('ware stands on its paper: light, no black hole, no burnt area', () => {
  const codes = renderRegion(prepareScene('teapot', 'picture', size), full);
  const linear = [...codes].map((code) => (code / 65_535) ** 2 * 16);
  const mean = linear.reduce((sum, value) => sum + value, 0) / linear.length;
  expect(mean).toBeGreaterThan(0.2);
  expect(mean).toBeLessThan(0.8);
  // Saturation lies at 2 ** 0.42 = 1.34; a glaze highlight may pass it, an area may not.
  expect(linear.filter((value) => value > 1.34).length / linear.length).toBeLessThan(0.002);
});
