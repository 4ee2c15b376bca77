import type { TiffRaster } from './encode-tiff.ts';

type Deep = TiffRaster & { readonly data: Uint16Array };

/** Rows, or columns, of the picture that a tone is the mean of. */
const deepPx = 8;
/** Share of a side over which its tone is evened out: what is one dot in the picture would be a stripe beyond it. */
const evenShare = 0.02;

/**
 * A picture set into a larger frame; beyond each side its own border goes on, evened out along the side. Only for pictures whose
 * border is plain: of anything else it would make stripes. Values are as they are in the picture, whatever they mean.
 */
export function extendBorder(
  picture: Deep,
  frame: { readonly widthPx: number; readonly heightPx: number },
  leftPx: number,
  topPx: number,
): Deep {
  const { widthPx, heightPx } = picture;
  const across = (row: number, column: number): number => (row * widthPx + column) * 3;
  const left = toneAlong(picture, heightPx, widthPx, across);
  const right = toneAlong(picture, heightPx, widthPx, (row, column) => across(row, widthPx - 1 - column));
  const top = toneAlong(picture, widthPx, heightPx, (column, row) => across(row, column));
  const bottom = toneAlong(picture, widthPx, heightPx, (column, row) => across(heightPx - 1 - row, column));
  const data = new Uint16Array(frame.widthPx * frame.heightPx * 3);
  for (let y = 0; y < frame.heightPx; y++) {
    const row = Math.max(0, Math.min(heightPx - 1, y - topPx));
    const upright = y < topPx ? top : y >= topPx + heightPx ? bottom : null;
    for (let x = 0; x < frame.widthPx; x++) {
      const column = Math.max(0, Math.min(widthPx - 1, x - leftPx));
      const sideways = x < leftPx ? left : x >= leftPx + widthPx ? right : null;
      const to = (y * frame.widthPx + x) * 3;
      for (let channel = 0; channel < 3; channel++) {
        const above = upright?.[column * 3 + channel];
        const beside = sideways?.[row * 3 + channel];
        data[to + channel] =
          above === undefined
            ? (beside ?? picture.data[across(row, column) + channel] ?? 0)
            : beside === undefined
              ? above
              : (above + beside) / 2;
      }
    }
  }
  return { data, widthPx: frame.widthPx, heightPx: frame.heightPx, channels: 3 };
}

/** Three values for each place along a side. */
function toneAlong(
  { data }: Deep,
  length: number,
  room: number,
  at: (along: number, inward: number) => number,
): Float64Array {
  const deep = Math.min(deepPx, room);
  const tone = new Float64Array(length * 3);
  for (let along = 0; along < length; along++) {
    for (let inward = 0; inward < deep; inward++) {
      const from = at(along, inward);
      for (let channel = 0; channel < 3; channel++)
        tone[along * 3 + channel] = (tone[along * 3 + channel] ?? 0) + (data[from + channel] ?? 0) / deep;
    }
  }
  return evened(tone, length, Math.max(1, Math.round((evenShare * length) / 2)));
}

/** Mean over `reach` to either side; shorter where the side ends. */
function evened(tone: Float64Array, length: number, reach: number): Float64Array {
  const out = new Float64Array(tone.length);
  for (let channel = 0; channel < 3; channel++) {
    const sums = new Float64Array(length + 1);
    for (let along = 0; along < length; along++)
      sums[along + 1] = (sums[along] ?? 0) + (tone[along * 3 + channel] ?? 0);
    for (let along = 0; along < length; along++) {
      const [from, to] = [Math.max(0, along - reach), Math.min(length, along + reach + 1)];
      out[along * 3 + channel] = Math.round(((sums[to] ?? 0) - (sums[from] ?? 0)) / (to - from));
    }
  }
  return out;
}
