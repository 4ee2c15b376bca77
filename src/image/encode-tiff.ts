import type { Raster } from './raster.ts';

/** One channel is grey, three are RGB. */
export type TiffRaster = Raster<Uint16Array | Uint8Array> & { readonly channels: 1 | 3 };

/**
 * The bytes of a TIFF 6.0 file (little-endian, baseline RGB or grey, uncompressed, one strip) of 8 or 16 bits a channel,
 * with an ICC profile in tag 34675 (ICC.1:2022, Annex B.4). The raster is copied. `pixelsPerInch`: a whole number, how
 * large it is printed; left out, nothing is said of that. Errors: RangeError where the file would pass the format's 4 GiB.
 */
export function encodeTiff(
  raster: TiffRaster,
  iccProfile: Uint8Array,
  pixelsPerInch?: number,
): Uint8Array<ArrayBuffer> {
  const pixelBytes = raster.data.byteLength;
  const profileOffset = ifdOffset + 2 + entryCount * 12 + 4 + bitsBytes + rationalBytes;
  const pixelOffset = (profileOffset + iccProfile.length + 3) & ~3;
  if (pixelOffset + pixelBytes > 0xffff_ffff) throw new RangeError('a TIFF file ends at 4 GiB');
  const bytes = new Uint8Array(pixelOffset + pixelBytes);
  const view = new DataView(bytes.buffer);
  const profileBytes = iccProfile.length;
  writeIfd(view, raster, { profileOffset, profileBytes, pixelOffset, pixelBytes, pixelsPerInch });
  bytes.set(iccProfile, profileOffset);
  if (raster.data instanceof Uint8Array) bytes.set(raster.data, pixelOffset);
  else writeSamples(view, pixelOffset, raster.data);
  return bytes;
}

const ifdOffset = 8;
const entryCount = 15;
/** Three BitsPerSample values do not fit into their entry, nor do the two resolutions; padded to whole words. */
const bitsBytes = 8;
const rationalBytes = 16;
const short = 3;
const long = 4;
const rational = 5;
const undefinedBytes = 7;

interface Layout {
  readonly profileOffset: number;
  readonly profileBytes: number;
  readonly pixelOffset: number;
  readonly pixelBytes: number;
  readonly pixelsPerInch: number | undefined;
}

function writeIfd(view: DataView, { widthPx, heightPx, channels, data }: TiffRaster, layout: Layout): void {
  const bitsOffset = ifdOffset + 2 + entryCount * 12 + 4;
  const squareOffset = bitsOffset + bitsBytes;
  const bits = data.BYTES_PER_ELEMENT * 8;
  // Tag, type, count, value or offset; ascending by tag (TIFF 6.0, section 2).
  const entries: readonly (readonly [number, number, number, number])[] = [
    [254, long, 1, 0], // NewSubfileType: full picture
    [256, long, 1, widthPx],
    [257, long, 1, heightPx],
    [258, short, channels, channels === 1 ? bits : bitsOffset], // BitsPerSample: one fits into its entry
    [259, short, 1, 1], // Compression: none
    [262, short, 1, channels === 1 ? 1 : 2], // PhotometricInterpretation: black is zero, or RGB
    [273, long, 1, layout.pixelOffset],
    [277, short, 1, channels], // SamplesPerPixel
    [278, long, 1, heightPx], // RowsPerStrip
    [279, long, 1, layout.pixelBytes],
    // Baseline asks for a resolution; without a unit it says no more than that pixels are square.
    [282, rational, 1, squareOffset], // XResolution
    [283, rational, 1, squareOffset + 8], // YResolution
    [284, short, 1, 1], // PlanarConfiguration: interleaved
    [296, short, 1, layout.pixelsPerInch === undefined ? 1 : 2], // ResolutionUnit: none, or inch
    [34_675, undefinedBytes, layout.profileBytes, layout.profileOffset],
  ];
  view.setUint16(0, 0x4949);
  view.setUint16(2, 42, true);
  view.setUint32(4, ifdOffset, true);
  view.setUint16(ifdOffset, entries.length, true);
  entries.forEach(([tag, type, count, value], index) => {
    const at = ifdOffset + 2 + index * 12;
    view.setUint16(at, tag, true);
    view.setUint16(at + 2, type, true);
    view.setUint32(at + 4, count, true);
    view.setUint32(at + 8, value, true);
  });
  for (let channel = 0; channel < 3; channel++) view.setUint16(bitsOffset + 2 * channel, bits, true);
  const { pixelsPerInch = 1 } = layout;
  [pixelsPerInch, 1, pixelsPerInch, 1].forEach((value, word) => {
    view.setUint32(squareOffset + 4 * word, value, true);
  });
}

function writeSamples(view: DataView, offset: number, samples: Uint16Array): void {
  let at = offset;
  for (const sample of samples) {
    view.setUint16(at, sample, true);
    at += 2;
  }
}
