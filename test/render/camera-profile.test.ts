import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import {
  adaptWhite,
  applyMatrix,
  d65Xyz,
  invertMatrix,
  parseMatrix,
  pcsXyz,
} from '../../src/colour/index.ts';
import type { DecodedRaw } from '../../src/develop/index.ts';
import { decodeRaw } from '../../src/workers/decode-raw.ts';
import { librawDecoder } from '../../src/workers/libraw-decoder.ts';
import { hasShared, sharedPath } from '../shared.ts';
import { readVector } from '../vector.ts';
import { type DngColour, type DngOptions, writeDng } from './dng-writer.ts';

interface DngVector {
  readonly color_matrix_1: number[][];
  readonly color_matrix_2: number[][];
  readonly camera_calibration: number[][];
  readonly forward_matrix: number[][];
  readonly white_xy: [number, number];
  readonly neutral_with_calibration: [number, number, number];
  readonly neutral_identity_calibration: [number, number, number];
  readonly camera_to_xyz_d50: number[][];
}

// Worked example of the DNG specification's camera model, from colour-science/colour-hdri's tests (see the file).
const vector = readVector<DngVector>('colour-dng-colour-model.json');
const folder = mkdtempSync(join(tmpdir(), 'setside-profile-'));
afterAll(() => rmSync(folder, { recursive: true }));
const decoder = librawDecoder();

async function decoded(options: Partial<DngOptions>): Promise<DecodedRaw> {
  const path = join(folder, 'x.dng');
  const values = new Uint16Array(32 * 32).fill(2000);
  writeFileSync(path, writeDng({ widthPx: 32, heightPx: 32, values, ...options }));
  return decodeRaw(decoder, path, undefined);
}

/** Tungsten and D65 stand nearest to the 2850 K and 6500 K of the example. */
const colour: DngColour = {
  illuminants: [3, 21],
  colorMatrices: [vector.color_matrix_1.flat(), vector.color_matrix_2.flat()],
  cameraCalibrations: [vector.camera_calibration.flat(), vector.camera_calibration.flat()],
  forwardMatrices: [vector.forward_matrix.flat(), vector.forward_matrix.flat()],
};

/** Camera RGB to XYZ of D50 as the mosaic's own matrix, made for D65, has it. */
function toD50({ mosaic }: DecodedRaw, camera: readonly [number, number, number]): readonly number[] {
  const xyzToCamera = parseMatrix(mosaic.xyzToCamera ?? []);
  const toXyz = xyzToCamera === null ? null : invertMatrix(xyzToCamera);
  if (toXyz === null) throw new Error('no matrix');
  return applyMatrix(adaptWhite(d65Xyz, pcsXyz), applyMatrix(toXyz, camera));
}

test('a DNG with forward matrices is developed by them, as in the worked example', async () => {
  const raw = await decoded({ colour, asShotNeutral: vector.neutral_identity_calibration });
  expect(raw.colours).toBe('forward-matrices');
  const expected = parseMatrix(vector.camera_to_xyz_d50.flat());
  if (expected === null) throw new Error('no matrix');
  for (const camera of [
    [0.4, 1, 0.6],
    [0.9, 0.1, 0.1],
    [0.1, 0.2, 0.8],
  ] as const) {
    toD50(raw, camera).forEach((value, index) => {
      // The example prints its matrix to 8 digits, its forward matrix makes D50 to 4.
      expect(value).toBeCloseTo(applyMatrix(expected, camera)[index] ?? Number.NaN, 3);
    });
  }
});

test('a white in place of a neutral gives the neutral of the worked example', async () => {
  const raw = await decoded({ colour, asShotNeutral: null, asShotWhiteXY: vector.white_xy });
  const [red, green, blue] = vector.neutral_with_calibration;
  // 2850 and 6504 K here, 2850 and 6500 there.
  expect(raw.mosaic.asShotMultipliers[0]).toBeCloseTo(green / red, 2);
  expect(raw.mosaic.asShotMultipliers[2]).toBeCloseTo(green / blue, 2);
  expect(raw.issues).toEqual([]);
});

test('a calibration that is signed for other matrices is not used (DNG 1.7.1, CameraCalibrationSignature)', async () => {
  const other = { ...colour, signatures: ['a body', 'another'] as const };
  const raw = await decoded({ colour: other, asShotNeutral: null, asShotWhiteXY: vector.white_xy });
  const [red, green] = vector.neutral_identity_calibration;
  expect(raw.mosaic.asShotMultipliers[0]).toBeCloseTo(green / red, 2);
  const same = { ...colour, signatures: ['a body', 'a body'] as const };
  const signed = await decoded({ colour: same, asShotNeutral: null, asShotWhiteXY: vector.white_xy });
  expect(signed.mosaic.asShotMultipliers[0]).toBeCloseTo(1 / vector.neutral_with_calibration[0], 2);
});

test('what the colours rest on is told', async () => {
  const { forwardMatrices: _, ...matrices } = colour;
  expect((await decoded({ colour: matrices })).colours).toBe('colour-matrices');
  expect((await decoded({ colorMatrix: null })).colours).toMatch(/none|maker/);
});

test('ExifTool reads the colour tags that were written', () => {
  const path = join(folder, 'tags.dng');
  const values = new Uint16Array(32 * 32).fill(2000);
  const asShotNeutral = vector.neutral_with_calibration;
  writeFileSync(path, writeDng({ widthPx: 32, heightPx: 32, values, colour, asShotNeutral }));
  const [facts] = JSON.parse(execFileSync('exiftool', ['-j', '-n', path]).toString());
  expect(facts.CalibrationIlluminant1).toBe(3);
  expect(facts.ForwardMatrix2).toMatch(/^0\.8924 -0\.1041 0\.176 0\.4351/);
  expect(facts.CameraCalibration1).toMatch(/^0\.9603 0 0 0 1 0 0 0 0\.9664$/);
});

test.skipIf(!hasShared())(
  'a real photograph with one colour matrix and no forward matrix says so',
  async () => {
    const raw = await decodeRaw(decoder, sharedPath('samples/real-chart-4mp.dng'), undefined);
    expect(raw.colours).toBe('colour-matrices');
  },
);
