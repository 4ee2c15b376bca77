import { applyMatrix, d65Xyz, rgbSpaces, type Vector3, xyzToLab } from '../colour/index.ts';

/** A frame made small: encoded sRGB, three channels of 8 bits, rows from the top. */
export interface SmallPicture {
  /** `data[(row * widthPx + column) * 3 + channel]`. */
  readonly data: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

/**
 * Lightness L* of the card: 18 % reflectance has L* 49.5 (CIE 15), and cards are exposed up to a stop and a half off. White
 * paper and a lens cap lie outside.
 */
const lightnessMin = 25;
const lightnessMax = 75;
/** Chroma C*ab of its middle: a balance that is off by some hundred kelvin still passes, a painted wall does not. */
const chromaMax = 9;
/** Light falls off over the card: from the median so many stops either way. */
const falloffEvMax = 0.6;
/** From one point to the next lightness moves less than this: a card has no texture at this size. */
const stepMax = 2.5;
/** The share of points that has to keep to all this; the rest is a thumb or a speck at the rim. */
const shareMin = 0.985;

/** Whether a frame shows a plain grey card and nothing else. At least 16 by 16 pixels; smaller ones are never one. */
export function isGreyCard(picture: SmallPicture): boolean {
  const { widthPx, heightPx } = picture;
  if (widthPx < 16 || heightPx < 16) return false;
  const points = labsOf(picture);
  const L = median(points.map(([lightness]) => lightness));
  const a = median(points.map((point) => point[1]));
  const b = median(points.map((point) => point[2]));
  if (L < lightnessMin || L > lightnessMax || Math.hypot(a, b) > chromaMax) return false;
  const kept = points.filter((point, index) => {
    const beside = index % widthPx === 0 ? point : (points[index - 1] ?? point);
    const above = points[index - widthPx] ?? point;
    return (
      Math.abs(stops(point[0], L)) <= falloffEvMax &&
      Math.hypot(point[1] - a, point[2] - b) <= chromaMax / 2 &&
      Math.abs(point[0] - beside[0]) <= stepMax &&
      Math.abs(point[0] - above[0]) <= stepMax
    );
  });
  return kept.length >= shareMin * points.length;
}

function labsOf({ data, widthPx, heightPx }: SmallPicture): Vector3[] {
  const { toXyz, transfer } = rgbSpaces.srgb;
  const light = Float64Array.from({ length: 256 }, (_, code) => transfer.decode(code / 255));
  const at = (index: number): number => light[data[index] ?? 0] ?? 0;
  return Array.from({ length: widthPx * heightPx }, (_, point) =>
    xyzToLab(applyMatrix(toXyz, [at(point * 3), at(point * 3 + 1), at(point * 3 + 2)]), d65Xyz),
  );
}

/** From lightness to lightness in stops: Y = ((L* + 16) / 116)^3 (CIE 15, for L* above 8). */
function stops(L: number, from: number): number {
  return 3 * Math.log2((Math.max(L, 0) + 16) / (from + 16));
}

function median(values: readonly number[]): number {
  const ordered = values.toSorted((one, other) => one - other);
  return ordered[Math.floor(ordered.length / 2)] ?? 0;
}
