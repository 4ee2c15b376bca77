import { expect, test } from 'vitest';
import { sizeFindings } from './result-size.ts';

const codes = (
  renderedWidthPx: number,
  renderedHeightPx: number,
  wanted: Parameters<typeof sizeFindings>[1],
  isCropped = true,
) => sizeFindings({ renderedWidthPx, renderedHeightPx }, wanted, isCropped).map(({ code }) => code);

test('a long edge that the picture does not have is said; one that it has is not', () => {
  expect(codes(1800, 1200, { longEdgePx: 20_000 })).toEqual(['develop.not-enlarged']);
  expect(codes(1200, 1800, { longEdgePx: 1800 })).toEqual([]);
  expect(codes(1800, 1200, 'full')).toEqual([]);
});

test('a sliver that a crop left is said, where nobody asked for as small a picture', () => {
  expect(codes(45, 1, 'half')).toEqual(['develop.small-result']);
  expect(codes(48, 32, { longEdgePx: 48 })).toEqual([]);
  expect(codes(45, 1, 'half', false)).toEqual([]);
});
