import { describe, expect, test } from 'vitest';
import { applyMatrix, invertMatrix, rgbSpaces, type Vector3, xyzToOklab } from '../../src/colour/index.ts';
import { sceneMosaic } from '../../src/develop/index.ts';
import { planDevelop } from '../../src/develop/plan.ts';
import { rebuildHighlights } from '../../src/develop/reference.ts';
import { decodeRaw } from '../../src/workers/decode-raw.ts';
import { librawDecoder } from '../../src/workers/libraw-decoder.ts';
import { hasShared, sharedPath } from '../shared.ts';

/** a and b of Oklab over L. */
function tintOf(rgb: Vector3): readonly [number, number] {
  const [lightness, a, b] = xyzToOklab(applyMatrix(rgbSpaces.rec2020.toXyz, rgb));
  return [a / lightness, b / lightness];
}

describe.skipIf(!hasShared())('a real raw that lost nothing, cut lower than its sensor cuts', () => {
  // The frame itself is the truth: ../shared/samples/SOURCES.md names it. Its two bright lights are lost at 0.2, the desk at 0.07.
  test.each([0.3, 0.2, 0.12, 0.07])(
    'cut at %d of the range, lost colours come three times nearer to what they were than from the pixel alone',
    async (cut) => {
      const { mosaic } = await decodeRaw(
        librawDecoder(),
        sharedPath('samples/real-chart-4mp.dng'),
        undefined,
      );
      const black = Math.max(...mosaic.blackLevels);
      const whiteLevel = Math.round(black + cut * (mosaic.whiteLevel - black));
      const clipped = {
        ...mosaic,
        values: mosaic.values.map((value) => Math.min(value, whiteLevel)),
        whiteLevel,
      };
      const truth = sceneMosaic(mosaic, 'half').picture.data;
      const found = sceneMosaic(clipped, 'half').picture.data;
      const { bin, toWorking } = planDevelop(clipped);
      const toBalanced = invertMatrix(toWorking);
      if (toBalanced === null) throw new Error('the camera matrix has an inverse');
      const gain = 2 ** mosaic.baselineExposureEv;
      const scaled = (data: Float32Array, at: number, by: number): Vector3 => [
        (data[at] ?? 0) * by,
        (data[at + 1] ?? 0) * by,
        (data[at + 2] ?? 0) * by,
      ];
      let [byHints, byPixel, count] = [0, 0, 0];
      for (let at = 0; at < truth.length; at += 3) {
        const balanced = applyMatrix(toBalanced, scaled(truth, at, 1 / cut / gain));
        const lost = balanced.filter((value, i) => value > 0.97 * (bin.saturation[i] ?? 1)).length;
        if (lost === 0 || lost === 3) continue;
        const [r, g, b] = balanced;
        const seen: Vector3 = [
          Math.min(r, bin.saturation[0]),
          Math.min(g, bin.saturation[1]),
          Math.min(b, bin.saturation[2]),
        ];
        const wanted = tintOf(scaled(truth, at, 1));
        const off = (rgb: Vector3): number => {
          const [a, bb] = tintOf(rgb);
          return Math.hypot(a - wanted[0], bb - wanted[1]);
        };
        byHints += off(scaled(found, at, 1));
        byPixel += off(applyMatrix(toWorking, rebuildHighlights(seen, bin.saturation)));
        count++;
      }
      expect(count).toBeGreaterThan(1000);
      expect(byHints / count).toBeLessThan(0.03);
      expect(byHints).toBeLessThan(byPixel / 3);
    },
  );
});
