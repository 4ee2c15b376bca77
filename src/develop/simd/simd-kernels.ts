import type { DemosaicSteps } from '../demosaic-steps.ts';
import { halfPlaneSamples, planeOrder } from '../half-planes.ts';
import { ringStride } from '../kernels/ring-rows.ts';
import type { BinPlan } from '../plan.ts';
import type { StripKernels, StripWork } from '../strip-kernels.ts';
import { type LightRun, runsAroundTable } from '../table-light.ts';
import { kernelModule } from './kernel-module.ts';
import { binaryHex } from './strip-binary.ts';
import { type TableNumbers, tableNumbers } from './table-numbers.ts';

/** What `assembly/strip.ts` exports. Addresses are bytes in the memory. */
interface StripExports {
  readonly split: (
    mosaic: number,
    widthPx: number,
    rows: number,
    numbers: number,
    plane0: number,
    plane1: number,
    plane2: number,
    plane3: number,
  ) => void;
  readonly half: (
    planes: number,
    planeBytes: number,
    outWidth: number,
    rows: number,
    to: number,
    redPosition: number,
    saturation: number,
  ) => void;
  readonly roots: (
    samples: number,
    count: number,
    scaleA: number,
    footA: number,
    scaleB: number,
    footB: number,
    to: number,
  ) => void;
  readonly differences: (plane: number, stride: number, row: number, colourColumn: number) => void;
  readonly unrest: (plane: number, stride: number, row: number) => void;
  readonly blend: (plane: number, stride: number, row: number, width: number) => void;
  readonly cross: (plane: number, stride: number, row: number, width: number) => void;
  readonly colours: (
    plane: number,
    stride: number,
    row: number,
    colourColumn: number,
    colour: number,
    width: number,
    saturation: number,
    to: number,
  ) => void;
  readonly rebuild: (rgb: number, count: number, saturation: number) => void;
  readonly light: (rgb: number, count: number, numbers: number, samples: number, last: number) => void;
  readonly lattice: (
    rgb: number,
    count: number,
    size: number,
    values: number,
    into: number,
    intoLast: number,
    outOf: number,
    outLast: number,
    outLow: number,
    toOut: number,
  ) => void;
  readonly encode: (linear: number, count: number, table: number, to: number) => void;
}

/**
 * The kernels in WebAssembly SIMD, or null where the machine has none. Each call gets a memory of its own, about 1 MB for
 * a strip (with a look's table 1.5 or 4 MB), and copies the strip's part of the mosaic into it: within the cache that costs less than it gains.
 */
export function simdKernels(work: StripWork): StripKernels | null {
  const compiled = moduleOnce();
  if (compiled === null) return null;
  const { mosaic, bin, table, light, pixelsMax } = work;
  const samples = light.curve === null ? [] : [...light.curve.samples, 1];
  const lookTable = light.lookTable === null ? null : tableNumbers(light.lookTable);
  const at = layOut(work, samples.length, lookTable);
  const memory = new WebAssembly.Memory({ initial: Math.ceil(at.end / 65_536) });
  const { buffer } = memory;
  const run = exportsOf(new WebAssembly.Instance(compiled, { env: { memory } }));

  new Uint8Array(buffer).set(table, at.table);
  new Float32Array(buffer, at.bin).set(numbersOfBin(bin));
  new Float32Array(buffer, at.saturation).set(bin.saturation);
  const [first, behind] = light.lookTable === null ? [light] : runsAroundTable(light);
  new Float32Array(buffer, at.light).set(numbersOfLight(first));
  if (behind !== undefined) new Float32Array(buffer, at.behind).set(numbersOfLight(behind));
  new Float32Array(buffer, at.samples).set(samples);
  const throughTable = lookTable === null ? null : tableStep(run, buffer, at, lookTable);
  const bytes = new Uint8Array(buffer, at.bytes, pixelsMax * 3);
  const halfInput = new Uint16Array(buffer, at.mosaic);
  const outWidth = mosaic.widthPx >> 1;
  const order = planeOrder(bin);
  const last = Math.max(0, samples.length - 2);
  const strip = new Float32Array(buffer, at.strip, pixelsMax * 3);
  const plane = new Float32Array(buffer, at.plane, work.planeSamples);
  return {
    strip,
    plane,
    half: (rowStart, rowEnd) => {
      const rows = rowEnd - rowStart;
      copyBlockRows(mosaic, rowStart - 2, rows + 4, halfInput);
      const planeBytes = halfPlaneSamples(outWidth, rows) * 4;
      const planeOf = (position: number): number => at.plane + order.indexOf(position) * planeBytes;
      run.split(at.mosaic, mosaic.widthPx, rows + 4, at.bin, planeOf(0), planeOf(1), planeOf(2), planeOf(3));
      run.half(at.plane, planeBytes, outWidth, rows, at.strip, bin.redPosition, at.saturation);
    },
    demosaic: demosaicSteps(run, buffer, work.widthPx, at),
    rebuild: (pixels) => run.rebuild(at.strip, pixels, at.saturation),
    light: (pixels) => {
      run.light(at.strip, pixels, at.light, at.samples, last);
      if (throughTable === null) return;
      throughTable(pixels);
      run.light(at.strip, pixels, at.behind, at.samples, 0);
    },
    encode: (pixels, out, outOffset) => {
      run.encode(at.strip, pixels * 3, at.table, at.bytes);
      out.set(bytes.subarray(0, pixels * 3), outOffset);
    },
  };
}

/** The lattice of a look on the strip. */
function tableStep(
  run: StripExports,
  buffer: ArrayBuffer,
  { strip, values, into, outOf }: Layout,
  table: TableNumbers,
): (pixels: number) => void {
  new Float32Array(buffer, values).set(table.values);
  new Float32Array(buffer, into).set(table.into);
  new Float32Array(buffer, outOf).set(table.outOf);
  const { size, outLow, toOut } = table;
  const intoLast = table.into.length - 2;
  const outLast = table.outOf.length - 2;
  return (pixels) => run.lattice(strip, pixels, size, values, into, intoLast, outOf, outLast, outLow, toOut);
}

function demosaicSteps(run: StripExports, buffer: ArrayBuffer, widthPx: number, at: Layout): DemosaicSteps {
  const { plane, strip, saturation, mosaic } = at;
  const stride = ringStride(widthPx) * 4;
  const samples = new Uint16Array(buffer, mosaic);
  return {
    roots: (values, from, count, scaleA, footA, scaleB, footB, to) => {
      samples.set(values.subarray(from, from + count));
      run.roots(mosaic, count, scaleA, footA, scaleB, footB, plane + to * 4);
    },
    differences: (row, first) => run.differences(plane, stride, row, first),
    unrest: (row) => run.unrest(plane, stride, row),
    blend: (row) => run.blend(plane, stride, row, widthPx),
    cross: (row) => run.cross(plane, stride, row, widthPx),
    colours: (row, first, colour, pixel) =>
      run.colours(plane, stride, row, first, colour, widthPx, saturation, strip + pixel * 12),
  };
}

const moduleOnce = kernelModule(binaryHex);

/** The exports are fixed by the committed binary, whose names a test holds. */
function exportsOf(instance: WebAssembly.Instance): StripExports {
  return instance.exports as unknown as StripExports;
}

interface Layout {
  readonly table: number;
  readonly bin: number;
  readonly saturation: number;
  readonly light: number;
  /** The run behind a look's table. */
  readonly behind: number;
  readonly samples: number;
  /** Nodes and shapers of a look's table. */
  readonly values: number;
  readonly into: number;
  readonly outOf: number;
  readonly strip: number;
  readonly plane: number;
  readonly bytes: number;
  readonly mosaic: number;
  readonly end: number;
}

/** Deals out addresses, 16 bytes aligned, with the 64 bytes behind each region that the kernels ask for. */
function layOut(work: StripWork, samples: number, lookTable: TableNumbers | null): Layout {
  const { mosaic, table, pixelsMax, planeSamples } = work;
  let end = 0;
  const place = (bytes: number): number => {
    const at = end;
    end = (at + bytes + 64 + 15) & ~15;
    return at;
  };
  const halfRows = Math.ceil(pixelsMax / (mosaic.widthPx >> 1)) + 4;
  return {
    table: place(table.length),
    bin: place(numbersMax * 4),
    saturation: place(numbersMax * 4),
    light: place(numbersMax * 4),
    behind: place(numbersMax * 4),
    samples: place(samples * 4),
    values: place((lookTable?.values.length ?? 0) * 4),
    into: place((lookTable?.into.length ?? 0) * 4),
    outOf: place((lookTable?.outOf.length ?? 0) * 4),
    strip: place(pixelsMax * 12),
    plane: place(planeSamples * 4),
    bytes: place(pixelsMax * 3),
    // Two rows of the mosaic, 16 bits a sample, for each row of half size and its neighbours; one row for full size.
    mosaic: place(work.isHalf ? halfRows * mosaic.widthPx * 4 : mosaic.widthPx * 2),
    end,
  };
}

/** Rows of 2x2 blocks as they lie in the mosaic; those beyond it are the ones at its edge. */
function copyBlockRows(
  { values, widthPx, heightPx }: StripWork['mosaic'],
  first: number,
  count: number,
  out: Uint16Array,
): void {
  const block = 2 * widthPx;
  const start = Math.max(0, first);
  const end = Math.min(heightPx >> 1, first + count);
  out.set(values.subarray(start * block, end * block), (start - first) * block);
  for (let row = start - 1; row >= first; row--) {
    out.copyWithin((row - first) * block, (start - first) * block, (start - first + 1) * block);
  }
  for (let row = end; row < first + count; row++) {
    out.copyWithin((row - first) * block, (end - 1 - first) * block, (end - first) * block);
  }
}

const numbersMax = 24;

/** What `split` in assembly/half-size.ts takes at `p`. */
function numbersOfBin({ black, scale }: BinPlan): number[] {
  return [...scale, ...black.map((level, position) => level * (scale[position] ?? 0))];
}

/** Layout of `light` in assembly/light.ts. */
function numbersOfLight({ toScene, curve, toOutput, luminance }: LightRun): number[] {
  const { samples, sceneWhite, slopeAtBlack } = curve ?? { samples: [0], sceneWhite: 1, slopeAtBlack: 1 };
  const toPosition = (samples.length - 1) / Math.sqrt(sceneWhite);
  return [...toScene, ...toOutput, ...luminance, sceneWhite, toPosition, slopeAtBlack];
}
