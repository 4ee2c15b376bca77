import { expect, test } from 'vitest';
import { frameSize } from './frame-size.ts';
import { prepareScene, renderRegion } from './render-region.ts';
import { lensSigmaPx } from './set-facts.ts';
import { targetPatches } from './target-place.ts';

/**
 * Rise of an edge blurred by a normal of 0.5 px and one pixel's square: variances add to 0.5² + 1/12 = 0.333, so the
 * 10-90 % rise is near 2.563 x 0.577 = 1.48 px (2.563 sigma: `verdicts.md`'s Gaussian relation, quantiles of the
 * normal distribution).
 */
const risePx = 2.563 * Math.hypot(lensSigmaPx, Math.sqrt(1 / 12));

test('an edge of the leaning target is as soft as the truth says, and lies where the truth says', () => {
  const size = frameSize(6);
  const scene = prepareScene('bowl', 'target', size);
  const white = targetPatches(scene, size)[18];
  const [[x0, y0] = [0, 0], , , [x3, y3] = [0, 0]] = white?.cornersPx ?? [];
  const margin = size.marginPx;
  const region = {
    left: Math.round(x0) + margin - 12,
    top: Math.round(y0) + margin + 20,
    widthPx: 40,
    heightPx: 48,
  };
  const codes = renderRegion(scene, region);
  const samples: [number, number][] = [];
  for (let row = 0; row < region.heightPx; row++) {
    const y = region.top + row + 0.5 - margin;
    const edge = x0 + ((x3 - x0) * (y - y0)) / (y3 - y0);
    const lean = Math.cos(Math.atan2(x3 - x0, y3 - y0));
    for (let column = 0; column < region.widthPx; column++) {
      const x = region.left + column + 0.5 - margin;
      const value = ((codes[(row * region.widthPx + column) * 3 + 1] ?? 0) / 65_535) ** 2;
      samples.push([(x - edge) * lean, value]);
    }
  }
  const mean = (from: number, to: number): number => {
    const inside = samples.filter(([place]) => place >= from && place < to);
    return inside.reduce((sum, [, value]) => sum + value, 0) / inside.length;
  };
  const dark = mean(-6, -3);
  const bright = mean(3, 6);
  const placeOf = (share: number): number => {
    for (let place = -3; place < 3; place += 0.02) {
      const here = (mean(place - 0.04, place + 0.04) - dark) / (bright - dark);
      if (here >= share) return place;
    }
    return Number.NaN;
  };
  expect(Math.abs((placeOf(0.9) - placeOf(0.1)) / risePx - 1)).toBeLessThan(0.06);
  expect(Math.abs(placeOf(0.5))).toBeLessThan(0.06);
});
