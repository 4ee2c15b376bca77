import type { Rgb8 } from '../../image/index.ts';

/** Which sides of a picture are plain backdrop to the edge. */
export interface PlainSides {
  readonly left: boolean;
  readonly top: boolean;
  readonly right: boolean;
  readonly bottom: boolean;
}

/** How far in from the edge is looked, share of the longer edge: that of the subject's ring. */
const stripShare = 0.025;
/** Parts of a side that are looked at one by one, so that light may fall off along it. */
const parts = 16;
/** Codes of sRGB, of 255, from the middle of its part: more is no backdrop but something on it. Noise of a rendering has 1 to 3. */
const offCodes = 8;
/** Share of a part's samples that may be: dust. */
const offShare = 0.02;
/** Codes from one part to the next, in any channel: light falls off more slowly (half a stop across a side is 4 a part). */
const stepCodes = 8;

/**
 * Whether what lies along each side of an upright picture (sRGB) could go on beyond it without anybody having to make something up:
 * one smooth tone from end to end. Thresholds are common practice, no source. A side too short to be looked at is not plain.
 */
export function plainSides(picture: Rgb8): PlainSides {
  const { widthPx, heightPx } = picture;
  const deep = Math.max(2, Math.round(stripShare * Math.max(widthPx, heightPx)));
  if (Math.min(widthPx, heightPx) < Math.max(parts, 2 * deep))
    return { left: false, top: false, right: false, bottom: false };
  const side = (along: number, at: (along: number, deep: number) => number): boolean =>
    isPlain(picture, along, deep, at);
  return {
    left: side(heightPx, (row, column) => row * widthPx + column),
    top: side(widthPx, (column, row) => row * widthPx + column),
    right: side(heightPx, (row, column) => row * widthPx + widthPx - 1 - column),
    bottom: side(widthPx, (column, row) => (heightPx - 1 - row) * widthPx + column),
  };
}

function isPlain(
  { data }: Rgb8,
  length: number,
  deep: number,
  at: (along: number, deep: number) => number,
): boolean {
  let before: readonly number[] | null = null;
  for (let part = 0; part < parts; part++) {
    const [from, to] = [Math.floor((part * length) / parts), Math.floor(((part + 1) * length) / parts)];
    const tone: number[] = [];
    for (let channel = 0; channel < 3; channel++) {
      const codes: number[] = [];
      for (let along = from; along < to; along++) {
        for (let inward = 0; inward < deep; inward++) codes.push(data[at(along, inward) * 3 + channel] ?? 0);
      }
      const middle = codes.toSorted((a, b) => a - b)[codes.length >> 1] ?? 0;
      const off = codes.filter((code) => Math.abs(code - middle) > offCodes).length;
      if (off > offShare * codes.length) return false;
      tone.push(middle);
    }
    const last = before;
    if (last !== null && tone.some((code, channel) => Math.abs(code - (last[channel] ?? 0)) > stepCodes))
      return false;
    before = tone;
  }
  return true;
}
