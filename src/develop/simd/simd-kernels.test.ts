import fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import { mosaics } from '../../../test/render/mosaics.ts';
import { identityMatrix, rgbSpaces } from '../../colour/index.ts';
import type { Mosaic } from '../../facts/index.ts';
import {
  type CompiledLook,
  compileLook,
  defaultLook,
  type LookTable,
  lookUpLattice,
  neutralLook,
} from '../../look/index.ts';
import { cameraLight, cameraWork } from '../camera-light.ts';
import { encodeTable } from '../encode-table.ts';
import { plainKernels } from '../plain-kernels.ts';
import { planDevelop, workingToSpace } from '../plan.ts';
import { planFrame } from '../plan-frame.ts';
import type { StripKernels, StripWork } from '../strip-kernels.ts';
import { simdKernels } from './simd-kernels.ts';

const looks: readonly CompiledLook[] = [
  compileLook(defaultLook),
  compileLook(neutralLook),
  compileLook({ ...defaultLook, tint: { ...defaultLook.tint, darkChroma: 0.03, lightChroma: 0.02 } }),
];
const [, , , luminanceR, luminanceG, luminanceB] = rgbSpaces.srgb.toXyz;

function workOn(mosaic: Mosaic, look: CompiledLook, size: 'half' | 'full' = 'half'): StripWork {
  const { bin, toWorking } = planDevelop(mosaic);
  return {
    ...cameraWork(mosaic, bin, planFrame(mosaic, size)),
    light: {
      toScene: toWorking,
      curve: look.curve,
      lookTable: look.table,
      toOutput: workingToSpace('srgb'),
      luminance: [luminanceR, luminanceG, luminanceB],
    },
    table: encodeTable(rgbSpaces.srgb),
  };
}

function bothForms(work: StripWork): { readonly simd: StripKernels; readonly plain: StripKernels } {
  const simd = simdKernels(work);
  if (simd === null) throw new Error('this machine has no WebAssembly SIMD');
  return { simd, plain: plainKernels(work) };
}

test('every step agrees with TypeScript on any mosaic and look, within what 32-bit floats hold', () => {
  fc.assert(
    fc.property(mosaics, fc.constantFrom(...looks), (mosaic, look) => {
      const work = workOn(mosaic, look);
      const { simd, plain } = bothForms(work);
      const pixels = work.pixelsMax;
      for (const kernels of [simd, plain]) kernels.half(0, mosaic.heightPx >> 1);
      expectClose(simd.strip, plain.strip, 4e-6);
      simd.strip.set(plain.strip);
      for (const kernels of [simd, plain]) kernels.rebuild(pixels);
      expectClose(simd.strip, plain.strip, 2e-5);
      simd.strip.set(plain.strip);
      for (const kernels of [simd, plain]) kernels.light(pixels);
      // Near black the curve's table is read through a square root, whose slope makes a float's last digit larger.
      expectClose(simd.strip, plain.strip, 2e-5);
      simd.strip.set(plain.strip);
      const bytes = [simd, plain].map((kernels) => {
        const out = new Uint8Array(pixels * 3 + 2);
        kernels.encode(pixels, out, 1);
        return out;
      });
      const [ofSimd = new Uint8Array(), ofPlain = new Uint8Array()] = bytes;
      ofSimd.forEach((code, index) => {
        expect(Math.abs(code - (ofPlain[index] ?? Number.NaN))).toBeLessThanOrEqual(1);
      });
      expect([ofSimd[0], ofSimd.at(-1)]).toEqual([0, 0]);
    }),
  );
});

test('demosaicing agrees with TypeScript on any mosaic', () => {
  fc.assert(
    fc.property(mosaics, (mosaic) => {
      fc.pre(Math.min(mosaic.widthPx, mosaic.heightPx) >= 3);
      const { bin } = planDevelop(mosaic);
      const work = workOn(mosaic, compileLook(neutralLook), 'full');
      const { simd, plain } = bothForms(work);
      for (const kernels of [simd, plain]) {
        cameraLight(mosaic, bin, planFrame(mosaic, 'full'), kernels)(0, mosaic.heightPx);
      }
      expectClose(simd.strip, plain.strip, 4e-6);
    }),
  );
});

/** The steps with nothing but a table in `light`. */
function throughTable(table: LookTable): { readonly simd: StripKernels; readonly plain: StripKernels } {
  const work = workOn(plainMosaic, compileLook(neutralLook));
  const { light } = work;
  return bothForms({
    ...work,
    pixelsMax: pixelCount,
    light: { ...light, toScene: identityMatrix, curve: null, toOutput: identityMatrix, lookTable: table },
  });
}

const pixelCount = 3001;
const plainMosaic: Mosaic = {
  values: new Uint16Array(16),
  widthPx: 4,
  heightPx: 4,
  filters: [0, 1, 1, 2],
  blackLevels: [0, 0, 0, 0],
  whiteLevel: 100,
  asShotMultipliers: [1, 1, 1],
  xyzToCamera: null,
  orientation: 1,
  baselineExposureEv: 0,
};

/** Light 0 … 1 of every order of channels, evenly spread but for a fifth of the pixels, in which two or three are equal or at an end. */
function manyColours(): Float32Array {
  const colours = Float32Array.from({ length: pixelCount * 3 }, (_, at) => ((at * 40_503) % 65_537) / 65_536);
  for (let pixel = 0; pixel < pixelCount; pixel += 5) {
    const kind = (pixel / 5) % 4;
    const at = pixel * 3;
    if (kind < 3) colours[at + kind] = colours[at + ((kind + 1) % 3)] ?? 0;
    else colours.fill(((pixel / 20) % 64) / 64, at, at + 3);
    if (pixel % 3 === 0) colours[at + (pixel % 2)] = pixel % 4 === 0 ? 1 : 0;
  }
  return colours;
}

/** The table of a real look, with other nodes. */
function tableOf(
  size: number,
  value: (red: number, green: number, blue: number) => readonly number[],
): LookTable {
  const { table } = compileLook({ ...defaultLook, tint: { ...defaultLook.tint, darkChroma: 0.03 } });
  if (table === null) throw new Error('a tint needs a table');
  const nodes = Array.from({ length: size }, (_, node) => node);
  const values = nodes.flatMap((r) => nodes.flatMap((g) => nodes.flatMap((b) => value(r, g, b))));
  return { ...table, size, values: Float32Array.from(values) };
}

// Tetrahedral interpolation gives every linear function of the position exactly, and both shapers are one: channels that
// change places must come out as they went in.
test('a table that lets channels change places does that and nothing else', () => {
  const last = 32;
  const { simd } = throughTable(tableOf(33, (r, g, b) => [g / last, b / last, r / last]));
  const colours = manyColours();
  simd.strip.set(colours);
  simd.light(pixelCount);
  const swapped = colours.map((_, at) => colours[at - (at % 3) + ((at + 1) % 3)] ?? Number.NaN);
  expectClose(simd.strip, swapped, 2e-5);
});

test('in a table without any order, a colour lies where tetrahedral interpolation puts it', () => {
  let seed = 1;
  const random = (): number => {
    seed = (seed * 48_271) % 2_147_483_647;
    return seed / 2_147_483_647;
  };
  const table = tableOf(5, () => [random(), random(), random()]);
  const { simd, plain } = throughTable(table);
  const colours = manyColours();
  for (const kernels of [simd, plain]) {
    kernels.strip.set(colours);
    kernels.light(pixelCount);
  }
  // Digits of 32-bit floats, times six and a half where the shaper is steepest and four where nodes differ most.
  expectClose(simd.strip, plain.strip, 4e-5);
  const reference = new Float32Array(pixelCount * 3);
  for (let at = 0; at < reference.length; at += 3) {
    reference.set(lookUpLattice(table, [colours[at] ?? 0, colours[at + 1] ?? 0, colours[at + 2] ?? 0]), at);
  }
  // Both kernels sample the shapers, at 1e-5 of a position.
  expectClose(simd.strip, reference, 3e-4);
});

/** Relative above 1, absolute below. */
function expectClose(actual: Float32Array, expected: Float32Array, tolerance: number): void {
  const worst = expected.reduce((most, value, index) => {
    return Math.max(most, Math.abs((actual[index] ?? Number.NaN) - value) / Math.max(1, Math.abs(value)));
  }, 0);
  expect(worst).toBeLessThan(tolerance);
}

test('codes differ from TypeScript’s in fewer than one sample in a thousand, over a ramp of all levels and colours', () => {
  const size = 256;
  const values = Uint16Array.from({ length: size * size }, (_, index) => (index * 40_503) % 16_384);
  const mosaic: Mosaic = {
    values,
    widthPx: size,
    heightPx: size,
    filters: [0, 1, 1, 2],
    blackLevels: [512, 512, 512, 512],
    whiteLevel: 16_383,
    asShotMultipliers: [2, 1, 1.6],
    xyzToCamera: [0.65, -0.1, -0.08, -0.4, 1.2, 0.2, -0.05, 0.2, 0.6],
    orientation: 1,
    baselineExposureEv: 0,
  };
  const work = workOn(mosaic, compileLook(defaultLook));
  const { simd, plain } = bothForms(work);
  const [ofSimd, ofPlain] = [simd, plain].map((kernels) => {
    const out = new Uint8Array(work.pixelsMax * 3);
    kernels.half(0, size / 2);
    kernels.rebuild(work.pixelsMax);
    kernels.light(work.pixelsMax);
    kernels.encode(work.pixelsMax, out, 0);
    return out;
  });
  const differing = ofSimd?.filter((code, index) => code !== ofPlain?.[index]).length ?? Number.NaN;
  expect(differing).toBeLessThan(work.pixelsMax * 3 * 0.001);
});

test('samples outside 0 … 1 are held at the ends, and what is not a number is black', () => {
  const { simd } = bothForms(workOn(plainMosaic, compileLook(neutralLook)));
  simd.strip.set([-1, 0, 1, 7, Number.NaN, Number.POSITIVE_INFINITY]);
  const bytes = new Uint8Array(6);
  simd.encode(2, bytes, 0);
  expect([...bytes]).toEqual([0, 0, 255, 255, 0, 255]);
});

test('a machine that refuses the module gets null, and so TypeScript', async () => {
  vi.resetModules();
  vi.stubGlobal('WebAssembly', undefined);
  try {
    const fresh: typeof import('./simd-kernels.ts') = await import('./simd-kernels.ts');
    expect(
      fresh.simdKernels(
        workOn(
          {
            values: new Uint16Array(16),
            widthPx: 4,
            heightPx: 4,
            filters: [0, 1, 1, 2],
            blackLevels: [0, 0, 0, 0],
            whiteLevel: 100,
            asShotMultipliers: [1, 1, 1],
            xyzToCamera: null,
            orientation: 1,
            baselineExposureEv: 0,
          },
          compileLook(neutralLook),
        ),
      ),
    ).toBeNull();
  } finally {
    vi.unstubAllGlobals();
    vi.resetModules();
  }
});
