import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { onTargetBalance, targetBalance } from '../../src/develop/index.ts';
import type { Mosaic, TargetReading } from '../../src/facts/index.ts';
import { readColourMosaic } from '../../src/judge/index.ts';
import { renderFrame } from '../../src/stand-in/index.ts';
import { decodeRaw } from '../../src/workers/decode-raw.ts';
import { librawDecoder } from '../../src/workers/libraw-decoder.ts';
import { shownErrors } from './shown-patches.ts';

/**
 * Two frames of the virtual set's target under one light, read by a camera that took the light for another and knows its
 * colours badly. The patches' colours are the published ones (chart truth of the stand-in, checked by LibRaw in
 * test/vectors/stand-in-raw.test.ts).
 */
test('a frame after the target comes out by the published values, where its camera was wrong about the light', async () => {
  const first = await mosaicOf(1);
  const second = await mosaicOf(2);
  const reading = target({ ...second, ...wrong });
  const { profile } = target({ ...first, ...wrong });
  const balance = profile === null ? null : targetBalance(profile);
  if (balance === null) throw new Error('the first frame makes a profile');
  // The camera changes its mind between the frames: what was measured on the first holds all the same.
  const before = { ...second, ...wrong, asShotMultipliers: [1.5, 1, 2] as const };
  const [wrongly, rightly] = [
    shownErrors(before, reading),
    shownErrors(onTargetBalance(before, balance), reading),
  ];
  // Measured: mean 15.8 wrongly, 0.18 rightly.
  expect(wrongly.mean).toBeGreaterThan(6);
  expect(rightly.mean).toBeLessThan(1);
  expect(rightly.greyAb).toBeLessThan(1);
});

const wrong = {
  asShotMultipliers: [2.6, 1, 1.3],
  xyzToCamera: [0.65, -0.1, -0.08, -0.4, 1.2, 0.2, -0.05, 0.2, 0.6],
} as const;

const folder = mkdtempSync(join(tmpdir(), 'setside-target-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function mosaicOf(noiseSeed: number): Promise<Mosaic> {
  const { bytes } = await renderFrame({ purpose: 'chart', sizeMegapixels: 0.7, noiseSeed });
  const path = join(folder, `${noiseSeed}.dng`);
  writeFileSync(path, bytes);
  return (await decodeRaw(librawDecoder(), path, undefined)).mosaic;
}

function target(mosaic: Mosaic): TargetReading {
  const reading = readColourMosaic(mosaic, { edition: null });
  if (!reading.found) throw new Error(`no target: ${reading.why}`);
  return reading;
}
