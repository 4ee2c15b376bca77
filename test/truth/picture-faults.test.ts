import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Color from 'colorjs.io';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Fault, type Frame, renderFrame } from '../../src/stand-in/index.ts';

/**
 * Faults of the picture, measured in the files: LibRaw's command line (Debian package libraw-bin) gives the mosaic and
 * the colours, the truth that came with the frame says what they must be. That truth is held against an independent
 * script in `stand-in-truth.test.ts`.
 */
let folder: string;
let plain: Frame;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'setside-faults-'));
  plain = await chart([]);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const chart = (faults: readonly Fault[]): Promise<Frame> =>
  renderFrame({ purpose: 'chart', sizeMegapixels: 0.3, noise: false, faults });

/** BlackLevel of the files, as ExifTool reads it (`test/vectors/stand-in-raw.test.ts`). */
const black = [512, 515, 510, 513];

/** Thirteen rays make an outline pixel, and upright edges have six places between two pixels, level ones four. */
const spreadWithin = 0.05;

test.each([
  ['nothing', []],
  ['soft', [{ name: 'soft', value: 2 }]],
  ['shake', [{ name: 'shake', value: 8 }]],
] as const)(
  'with %s ordered, edges of the chart have the spread of the truth along x and y',
  async (_, faults) => {
    const frame = await chart(faults);
    const green = greenOf(frame);
    const { sigmaWithPixelPx, shake } = frame.truth;
    const angle = ((shake?.angleDegrees ?? 0) * Math.PI) / 180;
    const along = (shake?.lengthPx ?? 0) ** 2 / 12;
    // Drawn on whole pixels, a movement spreads a sixth of a square pixel across itself (mean of f (1 - f)).
    const across = shake === null ? 0 : 1 / 6;
    const [c, s] = [Math.cos(angle) ** 2, Math.sin(angle) ** 2];
    const expected = { x: along * c + across * s, y: along * s + across * c };
    for (const axis of ['x', 'y'] as const) {
      const variance = sigmaWithPixelPx ** 2 + expected[axis];
      // The chart stands straight, so each edge has one place between two pixels: many edges have many.
      const edges = brightPatches(frame).map((index) => patchEdge(frame, green, index, axis));
      const edge = {
        mean: average(edges.map(({ mean }) => mean)),
        variance: average(edges.map((one) => one.variance)),
      };
      expect(Math.abs(Math.sqrt(edge.variance / variance) - 1), axis).toBeLessThan(spreadWithin);
      expect(Math.abs(edge.mean), axis).toBeLessThan(0.08);
    }
  },
);

test('exposure is off by as many stops as ordered', async () => {
  const frame = await chart([{ name: 'exposure', value: -1.5 }]);
  expect(frame.truth.exposureEv).toBe(-1.5);
  const [dark, right] = [greenOf(frame), greenOf(plain)];
  const ev = plain.truth.patches.map((_, index) =>
    Math.log2(patchMean(frame, dark, index) / patchMean(plain, right, index)),
  );
  for (const value of ev) expect(value).toBeCloseTo(-1.5, 1);
});

/** Of LibRaw's linear rendering; rounding and a hundred averaged pixels. */
const deltaE00Max = 0.4;

test.each([4000, 5000, 9000])(
  'under light of %s K LibRaw sees the patches as the truth says',
  async (value) => {
    const frame = await chart([{ name: 'tint', value }]);
    const path = join(folder, `tint-${value}.dng`);
    writeFileSync(path, frame.bytes);
    // Balanced as shot, and the camera believes its light: what is left is the light's own colour.
    execFileSync('dcraw_emu', ['-4', '-h', '-w', '-o', '5', '-c', '0', '-Z', 'ppm', path]);
    const image = readNetpbm(readFileSync(path.replace('.dng', '.ppm')));
    const white = 2 ** -0.42 * 65_535; // BaselineExposure
    for (const { xyz, cornersPx } of frame.truth.patches) {
      const seen = middleMean(image, cornersPx, 0.5).map((channel) => channel / white);
      const measured = new Color('xyz-d65', [seen[0] ?? 0, seen[1] ?? 0, seen[2] ?? 0]);
      expect(measured.deltaE(new Color('xyz-d65', [...xyz]), '2000')).toBeLessThan(deltaE00Max);
    }
  },
);

/** The truth knows bare paper only; ware and cloth throw light on the target and keep some from it. */
const lightEvWithin = 0.35;

test('without its key light the target is as much darker as the lights that are left make it', async () => {
  const shoot = (faults: readonly Fault[]): Promise<Frame> =>
    renderFrame({ shot: 'plate-stack', purpose: 'target', sizeMegapixels: 0.15, noise: false, faults });
  const [dark, lit] = await Promise.all([shoot([{ name: 'strobe', value: null }]), shoot([])]);
  const [darkGreen, litGreen] = [greenOf(dark), greenOf(lit)];
  // Two light greys and the white: values far above a step.
  for (const index of [18, 19, 20]) {
    const measured = Math.log2(patchMean(dark, darkGreen, index) / patchMean(lit, litGreen, index));
    expect(measured).toBeLessThan(-2);
    expect(Math.abs(measured - (dark.truth.patches[index]?.lightEv ?? 0))).toBeLessThan(lightEvWithin);
  }
});

test('a subject that was moved is found that much further right', async () => {
  const shoot = (faults: readonly Fault[]): Promise<Frame> =>
    renderFrame({ shot: 'mug', sizeMegapixels: 0.15, noise: false, faults });
  const [moved, still] = await Promise.all([shoot([{ name: 'shift', value: 6 }]), shoot([])]);
  expect(moved.truth.subject?.shiftPx[0]).toBeCloseTo(6, 9);
  const found = bestShift(moved, still);
  // The front of the mug is nearer than the plane that the shift is stated for: one fifteenth.
  expect(Math.abs(found - 6)).toBeLessThan(0.5);
});

/** The mosaic of the file as LibRaw reads it, black subtracted; NaN where the filter is not green. */
function greenOf(frame: Frame): Float64Array {
  const path = join(folder, 'mosaic.dng');
  writeFileSync(path, frame.bytes);
  execFileSync('unprocessed_raw', ['-q', path]);
  const { values, width } = readNetpbm(readFileSync(`${path}.pgm`));
  return Float64Array.from(values, (value, index) => {
    const place = (Math.floor(index / width) % 2) * 2 + (index % 2);
    return place === 1 || place === 2 ? value - (black[place] ?? 0) : Number.NaN;
  });
}

const brightPatches = ({ truth }: Frame): number[] =>
  truth.patches.flatMap(({ labD50: [lightness] }, index) => (lightness > 50 ? [index] : []));

const average = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * Mean and variance of the line spread across a patch's left (x) or upper (y) edge. Differences between
 * neighbours are one pixel wide, which is a twelfth of variance that does not belong to the picture.
 */
function patchEdge(
  frame: Frame,
  green: Float64Array,
  index: number,
  axis: 'x' | 'y',
): { mean: number; variance: number } {
  const corners = frame.truth.patches[index]?.cornersPx ?? [];
  const [[left, top] = [0, 0], , [right, bottom] = [0, 0]] = corners;
  const edge = axis === 'x' ? left : top;
  const [from, to] = axis === 'x' ? [top, bottom] : [left, right];
  const reach = 7;
  const first = Math.round(edge) - reach;
  const profile = Array.from({ length: 2 * reach }, (_, k) => {
    let sum = 0;
    let count = 0;
    for (let across = Math.ceil(from) + 12; across < to - 12; across++) {
      const [x, y] = axis === 'x' ? [first + k, across] : [across, first + k];
      const value = green[y * frame.truth.widthPx + x] ?? Number.NaN;
      if (Number.isNaN(value)) continue;
      sum += value;
      count++;
    }
    return sum / count;
  });
  const spread = profile
    .slice(1)
    .map((value, k) => ({ at: first + k + 1 - edge, share: value - (profile[k] ?? 0) }));
  const total = spread.reduce((sum, { share }) => sum + share, 0);
  const mean = spread.reduce((sum, { at, share }) => sum + at * share, 0) / total;
  const variance = spread.reduce((sum, { at, share }) => sum + (at - mean) ** 2 * share, 0) / total - 1 / 12;
  return { mean, variance };
}

function patchMean(frame: Frame, green: Float64Array, index: number): number {
  const { widthPx, heightPx } = frame.truth;
  const image = { width: widthPx, height: heightPx, channels: 1, values: green };
  return middleMean(image, frame.truth.patches[index]?.cornersPx ?? [], 1)[0] ?? Number.NaN;
}

interface Raster {
  readonly width: number;
  readonly height: number;
  readonly channels: number;
  readonly values: Uint16Array | Float64Array;
}

/** Over the middle of a patch; NaN is left out. `scale`: pixels of the raster per pixel of the sensor. */
function middleMean(image: Raster, corners: readonly (readonly [number, number])[], scale: number): number[] {
  const range = (values: readonly number[]): readonly [number, number] => {
    const [low, high] = [Math.min(...values) * scale, Math.max(...values) * scale];
    return [Math.ceil(low + 0.3 * (high - low)), Math.floor(high - 0.3 * (high - low))];
  };
  const [left, right] = range(corners.map(([x]) => x));
  const [top, bottom] = range(corners.map(([, y]) => y));
  const sums = Array.from({ length: image.channels }, () => 0);
  let count = 0;
  for (let y = top; y < bottom; y++) {
    for (let x = left; x < right; x++) {
      const at = (y * image.width + x) * image.channels;
      if (Number.isNaN(image.values[at])) continue;
      count++;
      sums.forEach((_, k) => {
        sums[k] = (sums[k] ?? 0) + (image.values[at + k] ?? 0);
      });
    }
  }
  return sums.map((sum) => sum / count);
}

/** Whole pixels that match best in a window on the mug, and the parabola through the sums about it. */
function bestShift(moved: Frame, still: Frame): number {
  const [a, b] = [greenOf(moved), greenOf(still)];
  const { widthPx } = moved.truth;
  const [left, top, right, bottom] = still.truth.subject?.boxPx ?? [0, 0, 0, 0];
  const difference = (shift: number): number => {
    let sum = 0;
    for (let y = Math.round(top) + 10; y < bottom - 10; y++) {
      for (let x = Math.round(left) - 6; x < right - 10; x++) {
        const from = b[y * widthPx + x] ?? Number.NaN;
        const to = a[y * widthPx + x + shift] ?? Number.NaN;
        if (!Number.isNaN(from) && !Number.isNaN(to)) sum += (from - to) ** 2;
      }
    }
    return sum;
  };
  // Even steps only: green meets green.
  const steps = [-2, 0, 2, 4, 6, 8, 10, 12];
  const sums = steps.map(difference);
  const best = sums.indexOf(Math.min(...sums));
  const [before = 0, here = 0, after = 0] = sums.slice(best - 1, best + 2);
  return (steps[best] ?? 0) + (2 * (before - after)) / (2 * (before - 2 * here + after));
}

/** Netpbm's binary formats, 16 bit, big endian (man 5 pgm, man 5 ppm). */
function readNetpbm(bytes: Buffer): Raster {
  const header = /^P([56])\s+(\d+)\s+(\d+)\s+(\d+)\s/.exec(bytes.toString('latin1', 0, 100));
  if (header === null) throw new Error('expected a PGM or PPM');
  const [width, height] = [Number(header[2]), Number(header[3])];
  const channels = header[1] === '6' ? 3 : 1;
  const values = Uint16Array.from({ length: width * height * channels }, (_, index) =>
    bytes.readUInt16BE(header[0].length + index * 2),
  );
  return { width, height, channels, values };
}
