import type { TiffRaster } from './encode-tiff.ts';

type Deep = TiffRaster & { readonly data: Uint16Array };

/** Rows, or columns, of the picture that a tone is the mean of. */
const deepPx = 8;
/** Share of a side over which its tone is evened out: what is one dot in the picture would be a stripe beyond it. */
const evenShare = 0.1;
/** Most noise that goes on with a tone, its deviation, of 65,535: two codes of 255. What has more is no noise. */
const noiseMax = 514;

/**
 * A picture set into a larger frame; beyond each side its own border goes on, evened out along the side, with as much noise as lies
 * along it (a smooth tone beside a noisy one shows its seam, and its steps of one code show as bands). Only for pictures whose
 * border is plain: of anything else it would make stripes. Values are as they are in the picture, whatever they mean; the same
 * picture gives the same frame.
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
  const noise = noiseOf(picture, across);
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
        const tone = above === undefined ? beside : beside === undefined ? above : (above + beside) / 2;
        if (tone === undefined) data[to + channel] = picture.data[across(row, column) + channel] ?? 0;
        else data[to + channel] = bounded(tone + noise * strayAt(to + channel));
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

function bounded(value: number): number {
  return Math.max(0, Math.min(65_535, Math.round(value)));
}

/** Deviation along the upper and lower rows: of second differences, which see no fall of light. The sixth part of their variance is a sample's. */
function noiseOf({ data, widthPx, heightPx }: Deep, at: (row: number, column: number) => number): number {
  let [sum, count] = [0, 0];
  const deep = Math.min(deepPx, heightPx);
  for (let row = 0; row < heightPx; row += row === deep - 1 ? Math.max(1, heightPx - 2 * deep + 1) : 1) {
    for (let column = 2; column < widthPx; column++) {
      const from = at(row, column);
      const bend = (data[from] ?? 0) - 2 * (data[from - 3] ?? 0) + (data[from - 6] ?? 0);
      sum += bend * bend;
      count += 1;
    }
  }
  return count === 0 ? 0 : Math.min(noiseMax, Math.sqrt(sum / count / 6));
}

/** Of deviation 1, about normal, and always the same at one place: the sum of the four bytes of a mixed index (Murmur3's finish). */
function strayAt(index: number): number {
  let bits = Math.imul(index ^ (index >>> 16), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  bits ^= bits >>> 16;
  const sum = (bits & 255) + ((bits >>> 8) & 255) + ((bits >>> 16) & 255) + (bits >>> 24);
  // Four bytes have a mean of 510 and a variance of 4 (256² - 1) / 12.
  return (sum - 510) / 147.8;
}
