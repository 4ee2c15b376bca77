import type { ShareBox } from '../facts/index.ts';

/** Half the edge of the box about a bare point, share of the picture's longer edge. */
const pointReach = 0.04;

/**
 * Exif 2.32 SubjectArea or SubjectLocation as a box in the stored picture: two figures are a point, three a circle (middle and diameter), four
 * a rectangle (middle, width, height), in pixels. Undefined where it lies outside, or the picture's size is not known.
 */
export function focusAreaOf(
  area: readonly number[] | undefined,
  size: { readonly pictureWidthPx: number | null; readonly pictureHeightPx: number | null },
): ShareBox | undefined {
  const { pictureWidthPx: width, pictureHeightPx: height } = size;
  const [x, y, across, down] = area ?? [];
  if (x === undefined || y === undefined || width === null || height === null) return undefined;
  if (!(width > 0 && height > 0 && x >= 0 && y >= 0 && x < width && y < height)) return undefined;
  // No camera focuses at the corner: it writes zeros for "unknown".
  if (x === 0 && y === 0) return undefined;
  const point = 2 * pointReach * Math.max(width, height);
  const wide = across !== undefined && across > 0 ? across : point;
  const high = down !== undefined && down > 0 ? down : wide;
  return {
    left: Math.max(0, (x - wide / 2) / width),
    top: Math.max(0, (y - high / 2) / height),
    right: Math.min(1, (x + wide / 2) / width),
    bottom: Math.min(1, (y + high / 2) / height),
  };
}
