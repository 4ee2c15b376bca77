import type { RawHints } from '../develop/index.ts';
import type { Mosaic, RawLayout } from '../facts/index.ts';
import type { LibRawMetadata } from './libraw-facts.ts';
import { rawError } from './raw-error.ts';

/** How the samples of a raw lie: a 2x2 mosaic, one of 4x4 whose colours lie in squares of four, or as `RawLayout` says. */
export type FoundLayout = { readonly kind: 'bayer' } | { readonly kind: 'quad' } | RawLayout;

/** LibRaw's `filters` of a 6 x 6 mosaic, whose pattern it does not hand out. */
const sixFilters = 9;

/** Errors: `raw-unsupported-mosaic`. */
export function layoutOf(metadata: LibRawMetadata, { cfa }: RawHints): FoundLayout {
  const { filters, colors, cdesc } = metadata;
  if (filters === 0 && colors === 1) return { kind: 'grey' };
  if (filters === 0 && colors === 3) return { kind: 'linear' };
  if (filters === sixFilters && cfa !== undefined && isSix(cfa)) return { kind: 'six', filters: cfa.filters };
  if (cfa !== undefined && isQuad(cfa)) return { kind: 'quad' };
  if (filters > 1000 && colors === 3 && /^RGBG/.test(cdesc)) return { kind: 'bayer' };
  throw rawError('raw-unsupported-mosaic', { filters, colours: cdesc });
}

function isSix({ rows, columns, filters }: NonNullable<RawHints['cfa']>): boolean {
  const count = (colour: number): number => filters.filter((filter) => filter === colour).length;
  // Any pattern will do in which each colour is near enough everywhere: green is half, the others at least a sixth.
  return (
    rows === 6 && columns === 6 && count(1) >= 16 && count(0) >= 6 && count(2) >= 6 && filters.length === 36
  );
}

/** Each 2x2 square is of one colour, and the squares make a 2x2 mosaic. */
function isQuad({ rows, columns, filters }: NonNullable<RawHints['cfa']>): boolean {
  if (rows !== 4 || columns !== 4 || filters.length !== 16) return false;
  const square = (top: number, left: number): number | null => {
    const four = [0, 1, 4, 5].map((at) => filters[top * 4 + left + at]);
    return new Set(four).size === 1 ? (four[0] ?? null) : null;
  };
  const squares = [square(0, 0), square(0, 2), square(2, 0), square(2, 2)];
  const [a, b, c, d] = squares;
  return [...squares].sort().join('') === '0112' && (a === d || b === c);
}

/** The filters of a pattern seen from another corner. */
export function shiftedSix(filters: readonly number[], topPx: number, leftPx: number): readonly number[] {
  return filters.map((_, at) => filters[((Math.floor(at / 6) + topPx) % 6) * 6 + ((at + leftPx) % 6)] ?? 1);
}

/**
 * A mosaic whose colours lie in squares of four as the 2x2 mosaic of half the size that it makes with each square summed:
 * levels are four times as high where 16 bits hold that, else the mean is taken.
 */
export function binnedQuad(
  samples: Pick<Mosaic, 'values' | 'widthPx' | 'heightPx'>,
  filters: readonly number[],
  whiteLevel: number,
): Pick<Mosaic, 'values' | 'widthPx' | 'heightPx' | 'filters'> & { readonly factor: number } {
  const factor = Math.max(1, Math.min(4, Math.floor(65_535 / whiteLevel)));
  const { values, widthPx: stride } = samples;
  const widthPx = stride >> 1;
  const heightPx = samples.heightPx >> 1;
  const out = new Uint16Array(widthPx * heightPx);
  for (let row = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++) {
      const at = 2 * row * stride + 2 * column;
      const upper = (values[at] ?? 0) + (values[at + 1] ?? 0);
      const lower = (values[at + stride] ?? 0) + (values[at + stride + 1] ?? 0);
      out[row * widthPx + column] = Math.round(((upper + lower) * factor) / 4);
    }
  }
  const at = (place: number): number => filters[place] ?? 1;
  return { values: out, widthPx, heightPx, filters: [at(0), at(2), at(8), at(10)], factor };
}
