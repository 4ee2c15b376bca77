import { describe, expect, test } from 'vitest';
import { readColourMosaic } from '../../src/judge/index.ts';
import { decodeRaw } from '../../src/workers/decode-raw.ts';
import { librawDecoder } from '../../src/workers/libraw-decoder.ts';
import { hasShared, sharedPath } from '../shared.ts';

/** A photograph of a target with a second panel above it, in mixed warm light, out of focus (samples/SOURCES.md). */
describe.skipIf(!hasShared())('a real photograph of a target', () => {
  test('the panel with 24 patches is found and read, the other one is not taken for it', async () => {
    const { mosaic } = await decodeRaw(librawDecoder(), sharedPath('samples/real-chart-4mp.dng'), undefined);
    const reading = readColourMosaic(mosaic, { edition: null });
    if (!reading.found) throw new Error(`no target: ${reading.why}`);
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
  });
});
