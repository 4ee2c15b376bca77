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
  const { values, widthPx, bin, table, light, pixelsMax } = work;
  const samples = light.curve === null ? [] : [...light.curve.samples, 1];
  const place = placer();
  const tableAt = place(table.length);
  const binAt = place(numbersMax * 4);
  const lightAt = place(numbersMax * 4);
  const samplesAt = place(samples.length * 4);
  const stripAt = place(pixelsMax * 12);
  const bytesAt = place(pixelsMax * 3);
  // Four mosaic values for each half-size pixel, and those of an odd last column.
  const mosaicAt = place(pixelsMax * 8 + (pixelsMax / (widthPx >> 1)) * 4);
  const memory = new WebAssembly.Memory({ initial: Math.ceil(place(0) / 65_536) });
  const { buffer } = memory;
  const run = exportsOf(new WebAssembly.Instance(compiled, { env: { memory } }));

  new Uint8Array(buffer).set(table, tableAt);
  new Float32Array(buffer, binAt).set(numbersOfBin(bin));
  new Float32Array(buffer, lightAt).set(numbersOfLight(light));
  new Float32Array(buffer, samplesAt).set(samples);
  const bytes = new Uint8Array(buffer, bytesAt, pixelsMax * 3);
  const mosaic = new Uint16Array(buffer, mosaicAt);
  const [green0, green1] = bin.greenPositions;
  const last = Math.max(0, samples.length - 2);
  return {
    strip: new Float32Array(buffer, stripAt, pixelsMax * 3),
    bin: (rowStart, rowEnd) => {
      mosaic.set(values.subarray(2 * rowStart * widthPx, 2 * rowEnd * widthPx));
      const rows = rowEnd - rowStart;
      run.bin(mosaicAt, widthPx, rows, stripAt, binAt, bin.redPosition, green0, green1, bin.bluePosition);
    },
    light: (pixels) => run.light(stripAt, pixels, lightAt, samplesAt, last),
    encode: (pixels, out, outOffset) => {
      run.encode(stripAt, pixels * 3, tableAt, bytesAt);
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

/** Deals out addresses, 16 bytes aligned, with the 64 bytes behind each region that the kernels ask for. */
function placer(): (bytes: number) => number {
  let next = 0;
  return (bytes) => {
    const at = next;
    next = (at + bytes + 64 + 15) & ~15;
    return at;
  };
}

const numbersMax = 24;

/** Layout of `bin` in assembly/strip.ts; positions in the order red, green, green, blue. */
function numbersOfBin({
  redPosition,
  greenPositions,
  bluePosition,
  black,
  scale,
  saturation,
}: BinPlan): number[] {
  const positions = [redPosition, ...greenPositions, bluePosition];
  const shares = [1, 0.5, 0.5, 1];
  const scales = positions.map((position, index) => (scale[position] ?? 0) * (shares[index] ?? 0));
  const shifts = positions.map((position, index) => (black[position] ?? 0) * (scales[index] ?? 0));
  return [...scales, ...shifts, ...saturation];
}

/** Layout of `light` in assembly/strip.ts. */
function numbersOfLight({ toScene, curve, toOutput, luminance }: LightPlan): number[] {
  const { samples, sceneWhite, slopeAtBlack } = curve ?? { samples: [0], sceneWhite: 1, slopeAtBlack: 1 };
  const toPosition = (samples.length - 1) / Math.sqrt(sceneWhite);
  return [...toScene, ...toOutput, ...luminance, sceneWhite, toPosition, slopeAtBlack];
}
