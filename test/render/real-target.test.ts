import { beforeAll, describe, expect, test } from 'vitest';
import { onTargetBalance, targetBalance } from '../../src/develop/index.ts';
import type { Mosaic, TargetReading } from '../../src/facts/index.ts';
import { readColourMosaic } from '../../src/judge/index.ts';
import { decodeRaw } from '../../src/workers/decode-raw.ts';
import { librawDecoder } from '../../src/workers/libraw-decoder.ts';
import { hasShared, sharedPath } from '../shared.ts';
import { shownErrors } from './shown-patches.ts';

/** A photograph of a target with a second panel above it, in mixed warm light, out of focus (samples/SOURCES.md). */
describe.skipIf(!hasShared())('a real photograph of a target', () => {
  let mosaic: Mosaic;
  beforeAll(async () => {
    const path = sharedPath('samples/real-chart-4mp.dng');
    ({ mosaic } = await decodeRaw(librawDecoder(), path, undefined));
  });

  const read = (of: Mosaic): TargetReading => {
    const reading = readColourMosaic(of, { edition: null });
    if (!reading.found) throw new Error(`no target: ${reading.why}`);
    return reading;
  };

  test('the panel with 24 patches is found and read, the other one is not taken for it', () => {
    const reading = read(mosaic);
    // Looked up by eye in the picture of 867 x 578 px: centres of dark skin and black lie at (357, 312) and (628, 462).
    const [topLeft, , bottomRight] = reading.place.corners;
    expect(Math.abs(topLeft[0] * 867 - 331)).toBeLessThan(10);
    expect(Math.abs(topLeft[1] * 578 - 287)).toBeLessThan(10);
    expect(Math.abs(bottomRight[0] * 867 - 654)).toBeLessThan(10);
    expect(Math.abs(bottomRight[1] * 578 - 488)).toBeLessThan(10);
    expect(reading.confidence).toBeGreaterThan(0.6);
    expect(reading.saturatedPatches).toBe(0);
    // Photographed three stops under, in lamps' light that the file's neutral does not know.
    expect(reading.greys?.deltaK).toBeLessThan(-2000);
    // A profile of its own light is much better than the file's, and not by fooling itself.
    expect(reading.profile?.leaveOneOut.mean).toBeLessThan(5);
    expect(reading.profile?.fit.mean).toBeLessThanOrEqual(reading.profile?.leaveOneOut.mean ?? 0);
    expect(reading.colour?.mean).toBeGreaterThan(2 * (reading.profile?.leaveOneOut.mean ?? 99));
  });

  test('balanced on it, the picture that is shown has its published colours, as near as the profile promised', () => {
    const reading = read(mosaic);
    const { profile, exposureEv } = reading;
    const balance = profile === null ? null : targetBalance(profile);
    if (profile === null || balance === null) throw new Error('it makes a profile');
    // Brought to its exposure, so that 8 bits hold the dark patches too.
    const lit = { ...mosaic, baselineExposureEv: -exposureEv };
    const before = shownErrors(lit, reading);
    const after = shownErrors(onTargetBalance(lit, balance), reading);
    expect(before.mean).toBeGreaterThan(2 * after.mean);
    // sRGB does not hold cyan, and 8 bits round: half a step beside the profile's own figure.
    expect(Math.abs(after.mean - profile.fit.mean)).toBeLessThan(0.5);
    // Measured: mean 15.1 before, 3.0 after; 2.9 promised. The light is mixed along the panel: no balance suits every grey.
    expect(after.greyAb).toBeLessThan(before.greyAb / 5);
  });

  test('balanced on its greys it is nearer by the camera’s own matrix already, and nearer still by the one fitted to it', () => {
    const reading = read(mosaic);
    const balance = reading.profile === null ? null : targetBalance(reading.profile);
    if (balance === null) throw new Error('it makes a profile');
    const lit = { ...mosaic, baselineExposureEv: -reading.exposureEv };
    const asShot = shownErrors(lit, reading);
    const onGreys = shownErrors({ ...lit, asShotMultipliers: balance.multipliers }, reading);
    const fitted = shownErrors(onTargetBalance(lit, balance), reading);
    // Measured: 15.1 as shot, 3.49 balanced on the greys, 3.00 by the fitted matrix (docs/rendering.md).
    expect(onGreys.mean).toBeLessThan(asShot.mean / 3);
    expect(fitted.mean).toBeLessThan(onGreys.mean);
    expect(fitted.mean).toBeLessThan(3.5);
  });

  test('upside down it is the same, mirrored it is refused, a panel cut off is said to be', () => {
    const upright = read(mosaic);
    const turned = read({ ...mosaic, orientation: 3 });
    expect(
      Math.abs(Math.abs(turned.place.rotationDegrees - upright.place.rotationDegrees) - 180),
    ).toBeLessThan(1);
    expect(turned.colour?.mean).toBeCloseTo(upright.colour?.mean ?? 0, 6);
    expect(readColourMosaic({ ...mosaic, orientation: 2 }, { edition: null })).toMatchObject({
      found: false,
      why: 'mirrored',
    });
    // Columns up to the middle of magenta and dark grey.
    expect(readColourMosaic(leftPart(mosaic, 1140), { edition: null })).toMatchObject({
      found: false,
      why: 'cut-off',
    });
    expect(readColourMosaic(leftPart(mosaic, 500), { edition: null }).found).toBe(false);
  });
});

function leftPart(mosaic: Mosaic, widthPx: number): Mosaic {
  const values = new Uint16Array(widthPx * mosaic.heightPx);
  for (let row = 0; row < mosaic.heightPx; row++) {
    const from = row * mosaic.widthPx;
    values.set(mosaic.values.subarray(from, from + widthPx), row * widthPx);
  }
  return { ...mosaic, values, widthPx };
}
