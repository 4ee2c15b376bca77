import { kernelModule } from '../../simd/kernel-module.ts';
import { type DetailKernels, detailPlanes, detailPlanesCount } from '../detail-kernels.ts';
import { binaryHex } from './detail-binary.ts';

/** What `assembly/detail.ts` exports. Addresses are bytes in the memory. */
interface DetailExports {
  readonly smooth: (
    plane: number,
    widthPx: number,
    heightPx: number,
    limits: number,
    levels: number,
    scratch: number,
  ) => void;
  readonly lift: (
    lightness: number,
    widthPx: number,
    heightPx: number,
    taps: number,
    reachPx: number,
    strength: number,
    gate: number,
    scratch: number,
    lines: number,
    to: number,
  ) => void;
}

/** Limits of levels, taps, addresses of lines: each has this many bytes. The widest blur of a look has some dozen taps. */
const numbersBytes = 4096;
const limitsAt = 0;
const tapsAt = numbersBytes;
const linesAt = 2 * numbersBytes;
const planesAt = 3 * numbersBytes;

const moduleOnce = kernelModule(binaryHex);

/** The kernels in WebAssembly SIMD; null where the machine has none, or no memory for them: then TypeScript does it. */
export function simdDetailKernels(pixelsMax: number): DetailKernels | null {
  const compiled = moduleOnce();
  const memory = compiled === null ? null : memoryOf(planesAt + detailPlanesCount * pixelsMax * 4);
  if (compiled === null || memory === null) return null;
  // The exports are fixed by the committed binary, whose names a test holds.
  const run = new WebAssembly.Instance(compiled, { env: { memory } }).exports as unknown as DetailExports;
  const { buffer } = memory;
  const numbers = (at: number, values: Float64Array): void => {
    if (values.length * 8 > numbersBytes) throw new RangeError('detail: too many levels or taps');
    new Float32Array(buffer, at, values.length).set(values);
  };
  return {
    planes: new Float32Array(buffer, planesAt, detailPlanesCount * pixelsMax),
    smooth: (plane, widthPx, heightPx, limits) => {
      const planeOf = planeAddress(widthPx, heightPx, pixelsMax);
      numbers(limitsAt, limits);
      run.smooth(planeOf(plane), widthPx, heightPx, limitsAt, limits.length, planeOf(detailPlanes.scratch));
    },
    lift: (widthPx, heightPx, { taps, strength, gate }) => {
      const planeOf = planeAddress(widthPx, heightPx, pixelsMax);
      numbers(tapsAt, taps);
      run.lift(
        planeOf(detailPlanes.lightness),
        widthPx,
        heightPx,
        tapsAt,
        taps.length - 1,
        strength,
        gate,
        planeOf(detailPlanes.scratch),
        linesAt,
        planeOf(detailPlanes.lift),
      );
    },
  };
}

function planeAddress(widthPx: number, heightPx: number, pixelsMax: number): (plane: number) => number {
  if (widthPx * heightPx > pixelsMax) throw new RangeError('detail: more pixels than there is room for');
  return (plane) => planesAt + plane * widthPx * heightPx * 4;
}

function memoryOf(bytes: number): WebAssembly.Memory | null {
  try {
    return new WebAssembly.Memory({ initial: Math.ceil(bytes / 65_536) });
  } catch {
    return null;
  }
}
