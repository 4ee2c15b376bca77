import { expect, test } from 'vitest';
import { circleMm } from './circle-of-confusion.ts';
import { frameSize } from './frame-size.ts';
import { prepareScene, renderRegion, type SetScene } from './render-region.ts';
import { lensSigmaPx } from './set-facts.ts';
import { targetPatches } from './target-place.ts';

const size = frameSize(6);
const binPx = 0.1;

test.each([
  ['bowl', 'before the plane of focus'],
  ['group', 'near the plane of focus'],
] as const)(
  'on %s, %s, an edge of the leaning target is as soft as lens, pixel and distance make it',
  (shot, _) => {
    const scene = prepareScene(shot, 'target', size);
    // Variances add: the lens's normal, the pixel's square (1/12), a uniform disc of radius R (R squared over 4).
    const radiusPx = circleMm(scene.stage.camera.lens, depthOf(scene)) / 2 / scene.stage.camera.pixelMm;
    const expected = lensSigmaPx ** 2 + 1 / 12 + radiusPx ** 2 / 4;
    // Past the blur, but no further: patches are lit unevenly, and a slope far out weighs heavily in a variance.
    const { mean, variance } = measureEdge(scene, Math.ceil(30 * Math.sqrt(expected) + 6) * binPx);
    expect(Math.abs(Math.sqrt(variance / expected) - 1)).toBeLessThan(0.04);
    expect(Math.abs(mean)).toBeLessThan(0.06);
  },
);

/**
 * First and second moment of the line spread across the white patch's left edge, pixels. With E rising from 0 to 1 over
 * -L … L, integration by parts gives mean = L - int E and variance = L² - 2 int x E - mean².
 */
function measureEdge(scene: SetScene, sidePx: number): { mean: number; variance: number } {
  const white = targetPatches(scene, size)[18];
  const [[x0, y0] = [0, 0], , , [x3, y3] = [0, 0]] = white?.cornersPx ?? [];
  const margin = size.marginPx;
  const region = {
    left: Math.round((x0 + x3) / 2) + margin - 14,
    top: Math.round(y0) + margin + 14,
    widthPx: 30,
    heightPx: Math.round(y3 - y0) - 28,
  };
  const codes = renderRegion(scene, region);
  const lean = Math.cos(Math.atan2(x3 - x0, y3 - y0));
  const samples: { at: number; value: number }[] = [];
  for (let row = 0; row < region.heightPx; row++) {
    const y = region.top + row + 0.5 - margin;
    const edge = x0 + ((x3 - x0) * (y - y0)) / (y3 - y0);
    for (let column = 0; column < region.widthPx; column++) {
      const at = (region.left + column + 0.5 - margin - edge) * lean;
      const value = ((codes[(row * region.widthPx + column) * 3 + 1] ?? 0) / 65_535) ** 2;
      if (Math.abs(at) < sidePx) samples.push({ at, value });
    }
  }
  return moments(samples, sidePx);
}

function moments(
  samples: readonly { at: number; value: number }[],
  sidePx: number,
): { mean: number; variance: number } {
  const bins = Array.from({ length: Math.round((2 * sidePx) / binPx) }, () => ({ sum: 0, count: 0 }));
  for (const { at, value } of samples) {
    const bin = bins[Math.floor((at + sidePx) / binPx)];
    if (bin === undefined) continue;
    bin.sum += value;
    bin.count++;
  }
  const filled = bins.map(({ sum, count }, k) => ({ x: (k + 0.5) * binPx - sidePx, value: sum / count }));
  const mean = (part: typeof filled): number => part.reduce((sum, { value }) => sum + value, 0) / part.length;
  const dark = mean(filled.slice(0, 4));
  const bright = mean(filled.slice(-4));
  let area = 0;
  let moment = 0;
  for (const { x, value } of filled) {
    const risen = (value - dark) / (bright - dark);
    area += risen * binPx;
    moment += x * risen * binPx;
  }
  const middle = sidePx - area;
  return { mean: middle, variance: sidePx ** 2 - 2 * moment - middle ** 2 };
}

/** Along the lens's axis to the white patch's left edge, mm. */
function depthOf({ stage }: SetScene): number {
  const { card, camera } = stage;
  if (card === null) return Number.NaN;
  const along = Math.hypot(...camera.forward);
  return [0, 1, 2].reduce((sum, k) => {
    const place =
      (card.centre[k] ?? 0) -
      (2.5 * card.patchPitch + card.patchSide / 2) * (card.across[k] ?? 0) -
      1.5 * card.patchPitch * (card.up[k] ?? 0);
    return sum + ((place - (camera.eye[k] ?? 0)) * (camera.forward[k] ?? 0)) / along;
  }, 0);
}
