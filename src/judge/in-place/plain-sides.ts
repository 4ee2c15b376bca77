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
/** Codes between the lightest and the darkest part, in any channel: where light falls off more, it shows that it does not go on. */
const alongCodes = 16;
/** Codes from the edge to as far in again: the same, seen across the side. */
const inwardCodes = 4;

/**
 * Whether what lies along each side of an upright picture (sRGB) could go on beyond it without anybody having to make something up:
 * one smooth tone from end to end. Thresholds are common practice, no source. A side too short to be looked at is not plain.
 */
export function plainSides(picture: Rgb8): PlainSides {
  const { widthPx, heightPx } = picture;
  const deep = Math.max(2, Math.round(stripShare * Math.max(widthPx, heightPx)));
  if (Math.min(widthPx, heightPx) < Math.max(parts, 4 * deep))
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
  const [least, most] = [
    [255, 255, 255],
    [0, 0, 0],
  ];
  for (let part = 0; part < parts; part++) {
    const [from, to] = [Math.floor((part * length) / parts), Math.floor(((part + 1) * length) / parts)];
    for (let channel = 0; channel < 3; channel++) {
      const codes = (start: number): number[] => {
        const found: number[] = [];
        for (let along = from; along < to; along++) {
          for (let inward = start; inward < start + deep; inward++)
            found.push(data[at(along, inward) * 3 + channel] ?? 0);
        }
        return found.sort((a, b) => a - b);
      };
      const [edge, further] = [codes(0), codes(deep)];
      const middle = edge[edge.length >> 1] ?? 0;
      const off = edge.filter((code) => Math.abs(code - middle) > offCodes).length;
      if (off > offShare * edge.length) return false;
      if (Math.abs(middle - (further[further.length >> 1] ?? 0)) > inwardCodes) return false;
      least[channel] = Math.min(least[channel] ?? 255, middle);
      most[channel] = Math.max(most[channel] ?? 0, middle);
    }
  }
  return most.every((code, channel) => code - (least[channel] ?? 0) <= alongCodes);
}
