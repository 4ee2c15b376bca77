import {
  adaptWhite,
  applyMatrix,
  d50Xyz,
  deltaE2000,
  multiplyMatrices,
  rgbSpaces,
  type Vector3,
  xyToXyz,
  xyzToLab,
} from '../../src/colour/index.ts';
import { type Rgb8, reduceByArea, type Size } from '../../src/image/index.ts';

const { toXyz, transfer, white } = rgbSpaces.srgb;
const toLab = multiplyMatrices(adaptWhite(xyToXyz(white), d50Xyz), toXyz);

/** Linear light of sRGB's primaries, 0 … 1, interleaved. */
export interface Light extends Size {
  readonly data: Float32Array;
}

function labAt({ data, widthPx }: Light, row: number, column: number): Vector3 {
  const at = (row * widthPx + column) * 3;
  return xyzToLab(applyMatrix(toLab, [data[at] ?? 0, data[at + 1] ?? 0, data[at + 2] ?? 0]));
}

/** Mean CIEDE2000 over the part both pictures have. */
export function meanDifference(one: Light, other: Light): number {
  const widthPx = Math.min(one.widthPx, other.widthPx);
  const heightPx = Math.min(one.heightPx, other.heightPx);
  let sum = 0;
  for (let row = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++) {
      sum += deltaE2000(labAt(one, row, column), labAt(other, row, column));
    }
  }
  return sum / (widthPx * heightPx);
}

export function lightOf({ data, widthPx, heightPx }: Rgb8): Light {
  return { data: Float32Array.from(data, (code) => transfer.decode(code / 255)), widthPx, heightPx };
}

/** Both edges halved by area averaging in linear light. */
export function halved({ data, widthPx, heightPx }: Light): Light {
  const half = { widthPx: widthPx >> 1, heightPx: heightPx >> 1 };
  return reduceByArea({ data, widthPx, heightPx, channels: 3 }, half);
}
