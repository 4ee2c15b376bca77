import type { BinPlan } from '../plan.ts';
import type { LightPlan, StripKernels, StripWork } from '../strip-kernels.ts';
import { binaryHex } from './strip-binary.ts';

/** What `assembly/strip.ts` exports. Addresses are bytes in the memory. */
interface StripExports {
  readonly bin: (
    mosaic: number,
    widthPx: number,
    rows: number,
    to: number,
    numbers: number,
    red: number,
    green0: number,
    green1: number,
    blue: number,
  ) => void;
  readonly demosaic: (
    plane: number,
    width: number,
    rows: number,
    to: number,
    saturation: number,
    filters: number,
  ) => void;
  readonly rebuild: (rgb: number, count: number, saturation: number) => void;
  readonly light: (rgb: number, count: number, numbers: number, samples: number, last: number) => void;
  readonly encode: (linear: number, count: number, table: number, to: number) => void;
}

/**
 * The kernels in WebAssembly SIMD, or null where the machine has none. Each call gets a memory of its own, about 1 MB for
 * a strip, and copies the strip's part of the mosaic into it: within the cache that costs less than it gains.
 */
export function simdKernels(work: StripWork): StripKernels | null {
  compiled ??= compile();
  if (compiled === 'absent') return null;
  const { values, widthPx, bin, light, table, pixelsMax } = work;
  const samples = light.curve === null ? [] : [...light.curve.samples, 1];
  const at = layOut(work, samples.length);
  const memory = new WebAssembly.Memory({ initial: Math.ceil(at.end / 65_536) });
  const { buffer } = memory;
  const run = exportsOf(new WebAssembly.Instance(compiled, { env: { memory } }));

  new Uint8Array(buffer).set(table, at.table);
  new Float32Array(buffer, at.bin).set(numbersOfBin(bin));
  new Float32Array(buffer, at.saturation).set(bin.saturation);
  new Float32Array(buffer, at.light).set(numbersOfLight(light));
  new Float32Array(buffer, at.samples).set(samples);
  const bytes = new Uint8Array(buffer, at.bytes, pixelsMax * 3);
  const mosaic = new Uint16Array(buffer, at.mosaic);
  const { redPosition, greenPositions, bluePosition } = bin;
  const [green0, green1] = greenPositions;
  const last = Math.max(0, samples.length - 2);
  return {
    strip: new Float32Array(buffer, at.strip, pixelsMax * 3),
    plane: new Float32Array(buffer, at.plane, work.planeSamples),
    bin: (rowStart, rowEnd) => {
      mosaic.set(values.subarray(2 * rowStart * widthPx, 2 * rowEnd * widthPx));
      const rows = rowEnd - rowStart;
      run.bin(at.mosaic, widthPx, rows, at.strip, at.bin, redPosition, green0, green1, bluePosition);
    },
    demosaic: (width, rows, filters) => {
      const packed = filters.reduceRight((bits, filter) => (bits << 2) | filter, 0);
      run.demosaic(at.plane, width, rows, at.strip, at.saturation, packed);
    },
    rebuild: (pixels) => run.rebuild(at.strip, pixels, at.saturation),
    light: (pixels) => run.light(at.strip, pixels, at.light, at.samples, last),
    encode: (pixels, out, outOffset) => {
      run.encode(at.strip, pixels * 3, at.table, at.bytes);
      out.set(bytes.subarray(0, pixels * 3), outOffset);
    },
  };
}

let compiled: WebAssembly.Module | 'absent' | undefined;

/** A machine without vector instructions, or an engine without WebAssembly, refuses the module. */
function compile(): WebAssembly.Module | 'absent' {
  try {
    return new WebAssembly.Module(binaryBytes());
  } catch {
    return 'absent';
  }
}

/** The module's bytes. */
export function binaryBytes(): Uint8Array<ArrayBuffer> {
  return Uint8Array.from({ length: binaryHex.length / 2 }, (_, index) =>
    Number.parseInt(binaryHex.slice(2 * index, 2 * index + 2), 16),
  );
}

/** The exports are fixed by the committed binary, whose names a test holds. */
function exportsOf(instance: WebAssembly.Instance): StripExports {
  return instance.exports as unknown as StripExports;
}

interface Layout {
  readonly table: number;
  readonly bin: number;
  readonly saturation: number;
  readonly light: number;
  readonly samples: number;
  readonly strip: number;
  readonly plane: number;
  readonly bytes: number;
  readonly mosaic: number;
  readonly end: number;
}

/** Deals out addresses, 16 bytes aligned, with the 64 bytes behind each region that the kernels ask for. */
function layOut({ table, pixelsMax, planeSamples, widthPx }: StripWork, samples: number): Layout {
  let end = 0;
  const place = (bytes: number): number => {
    const at = end;
    end = (at + bytes + 64 + 15) & ~15;
    return at;
  };
  const halfRows = Math.ceil(pixelsMax / (widthPx >> 1));
  return {
    table: place(table.length),
    bin: place(numbersMax * 4),
    saturation: place(numbersMax * 4),
    light: place(numbersMax * 4),
    samples: place(samples * 4),
    strip: place(pixelsMax * 12),
    plane: place(planeSamples * 4),
    bytes: place(pixelsMax * 3),
    // Two rows of the mosaic, 16 bits a sample, for each row of half size; none is binned where all is demosaiced.
    mosaic: place(planeSamples > 0 ? 0 : halfRows * widthPx * 4),
    end,
  };
}

const numbersMax = 24;

/** Layout of `bin` in assembly/strip.ts; positions in the order red, green, green, blue. */
function numbersOfBin({ redPosition, greenPositions, bluePosition, black, scale }: BinPlan): number[] {
  const positions = [redPosition, ...greenPositions, bluePosition];
  const shares = [1, 0.5, 0.5, 1];
  const scales = positions.map((position, index) => (scale[position] ?? 0) * (shares[index] ?? 0));
  const shifts = positions.map((position, index) => (black[position] ?? 0) * (scales[index] ?? 0));
  return [...scales, ...shifts];
}

/** Layout of `light` in assembly/strip.ts. */
function numbersOfLight({ toScene, curve, toOutput, luminance }: LightPlan): number[] {
  const { samples, sceneWhite, slopeAtBlack } = curve ?? { samples: [0], sceneWhite: 1, slopeAtBlack: 1 };
  const toPosition = (samples.length - 1) / Math.sqrt(sceneWhite);
  return [...toScene, ...toOutput, ...luminance, sceneWhite, toPosition, slopeAtBlack];
}
