import { SetsideError } from '../base/index.ts';
import {
  assumedHeadroomEv,
  type DecodedRaw,
  type DevelopErrorCode,
  developErrors,
  mendBadPixels,
  type RawDecoder,
  type RawHints,
} from '../develop/index.ts';
import type { Mosaic } from '../facts/index.ts';
import type { Orientation, Region } from '../image/index.ts';
import { movedBad, placedLens } from './dng-lens.ts';
import { cameraColour } from './libraw-colour.ts';
import { type LibRawMetadata, type LibRawMosaic, librawMetadata, librawMosaic } from './libraw-facts.ts';
import { type LibRawHandle, type LibRawModule, startLibRaw } from './libraw-module.ts';

/**
 * Largest raw picture, pixels. Twice the largest sensor in trade (150 MP): beyond it the decoder alone would need more
 * than 2 GB in one block.
 */
export const rawPixelsMax = 300_000_000;

/** Largest raw file, bytes: 16 bits for every pixel of {@link rawPixelsMax}, and a tenth for previews. */
export const rawBytesMax: number = rawPixelsMax * 2.2;

/**
 * LibRaw behind our own interface. One module is kept warm and reused; after a failure it is thrown away, because a C++
 * exception out of a half-read file leaves it in a state nobody promises anything about.
 */
export function librawDecoder(): RawDecoder {
  let warm: Promise<LibRawModule> | null = null;
  let heard: string[] = [];
  const start = (): Promise<LibRawModule> => startLibRaw((line) => heard.push(line.slice(0, 200)));
  return {
    async decode(bytes, hints = {}) {
      if (bytes.length > rawBytesMax)
        throw rawError('raw-too-large', { bytes: bytes.length, bytesMax: rawBytesMax });
      warm ??= start();
      const module = await warm;
      heard = [];
      const handle = new module.LibRaw();
      try {
        const decoded = decodeWith(handle, bytes, hints);
        handle.delete();
        return decoded;
      } catch (thrown) {
        warm = null;
        throw thrown instanceof SetsideError ? thrown : failure(heard);
      }
    },
  };
}

function decodeWith(handle: LibRawHandle, bytes: Uint8Array, hints: RawHints): DecodedRaw {
  handle.open(bytes, {});
  const metadata = librawMetadata.parse(handle.metadata(true));
  assertMosaic(metadata);
  const raw = librawMosaic.safeParse(handle.rawImageData());
  if (!raw.success) throw rawError('raw-unsupported-mosaic', { why: 'no mosaic' });
  const colour = cameraColour(metadata, hints);
  const black = metadata.color_data.black;
  const { leftPx, topPx, ...samples } = visibleArea(raw.data, hints.crop);
  const { width, height, left_margin, top_margin } = raw.data;
  const placed = { leftPx, topPx };
  const lens = hints.lens && placedLens(hints.lens, { widthPx: width, heightPx: height }, placed);
  const mosaic: Mosaic = {
    ...samples,
    filters: filtersOf(metadata),
    blackLevels: hints.blackLevels ?? [black, black, black, black],
    whiteLevel: hints.whiteLevel ?? metadata.color_data.maximum,
    asShotMultipliers: colour.asShotMultipliers,
    xyzToCamera: colour.xyzToCamera,
    ...(lens === undefined ? {} : { lens }),
    ...(colour.asShotWhite === null ? {} : { asShotWhite: colour.asShotWhite }),
    orientation: hints.orientation ?? flipToOrientation(metadata.flip),
    baselineExposureEv: hints.baselineExposureEv ?? statedExposure(metadata) ?? assumedHeadroomEv,
  };
  assertLevels(mosaic);
  if (hints.lens?.bad != null)
    mendBadPixels(mosaic, movedBad(hints.lens.bad, top_margin + topPx, left_margin + leftPx));
  return { mosaic, colours: colour.colours, issues: colour.issues };
}

function assertMosaic(metadata: LibRawMetadata): void {
  const pixels = metadata.raw_width * metadata.raw_height;
  if (pixels > rawPixelsMax) throw rawError('raw-too-large', { pixels, pixelsMax: rawPixelsMax });
  const bayer = metadata.filters > 1000 && metadata.colors === 3 && /^RGBG/.test(metadata.cdesc);
  if (!bayer)
    throw rawError('raw-unsupported-mosaic', { filters: metadata.filters, colours: metadata.cdesc });
}

function assertLevels({ blackLevels, whiteLevel }: Mosaic): void {
  const sound = blackLevels.every((black) => black >= 0 && black < whiteLevel) && whiteLevel <= 65_535;
  if (!sound) throw rawError('raw-cannot-decode', { black: blackLevels.join(' '), white: whiteLevel });
}

/**
 * The picture out of the whole sensor that LibRaw hands out, whose margins are masked pixels. Rows are moved together
 * within LibRaw's copy, which is ours alone: a second copy of a large mosaic costs as much as developing it.
 */
function visibleArea(
  raw: LibRawMosaic,
  crop: Region | undefined,
): Pick<Mosaic, 'values' | 'widthPx' | 'heightPx'> & Pick<Region, 'leftPx' | 'topPx'> {
  const { raw_width: stride, raw_height: rows } = raw;
  const inside =
    raw.left_margin + raw.width <= stride &&
    raw.top_margin + raw.height <= rows &&
    raw.data.length >= stride * rows;
  if (!inside) throw rawError('raw-cannot-decode', { why: 'the visible area lies outside the sensor' });
  const { leftPx, topPx, widthPx, heightPx } = usableCrop(raw, crop);
  const values = ownCopy(raw.data);
  for (let row = 0; row < heightPx; row++) {
    const from = (raw.top_margin + topPx + row) * stride + raw.left_margin + leftPx;
    if (from !== row * widthPx) values.copyWithin(row * widthPx, from, from + widthPx);
  }
  return { values: values.subarray(0, widthPx * heightPx), widthPx, heightPx, leftPx, topPx };
}

/** libraw-wasm 1.6.0 copies the mosaic out of its memory; a version that gave a view instead must not be written to. */
function ownCopy(data: Uint16Array): Uint16Array {
  return data.byteLength === data.buffer.byteLength ? data : data.slice();
}

function usableCrop({ width, height }: LibRawMosaic, crop: Region | undefined): Region {
  const whole = { leftPx: 0, topPx: 0, widthPx: width, heightPx: height };
  if (crop === undefined) return whole;
  const leftPx = crop.leftPx & ~1;
  const topPx = crop.topPx & ~1;
  const fits =
    leftPx >= 0 &&
    topPx >= 0 &&
    crop.widthPx >= 2 &&
    crop.heightPx >= 2 &&
    leftPx + crop.widthPx <= width &&
    topPx + crop.heightPx <= height;
  return fits ? { leftPx, topPx, widthPx: crop.widthPx, heightPx: crop.heightPx } : whole;
}

/**
 * LibRaw packs the filters of 8 rows x 2 columns into 32 bits, two bits each, 3 being the second green. A 2x2 mosaic
 * repeats one byte four times. Its greens lie on a diagonal; every step from the mosaic to a picture counts on it.
 */
function filtersOf({ filters }: LibRawMetadata): Mosaic['filters'] {
  const byte = filters & 0xff;
  const filterAt = (position: number): number => {
    const filter = (byte >> (2 * position)) & 3;
    return filter === 3 ? 1 : filter;
  };
  const list = [filterAt(0), filterAt(1), filterAt(2), filterAt(3)] as const;
  const whole = filters >>> 0 === byte * 0x0101_0101;
  const isDiagonal = list[0] === list[3] || list[1] === list[2];
  const sound = isDiagonal && [...list].sort().join('') === '0112';
  if (!whole || !sound) throw rawError('raw-unsupported-mosaic', { filters });
  return list;
}

/** LibRaw's flip (bit 0 mirror left-right, bit 1 mirror top-bottom, bit 2 transpose first) to Exif orientation. */
function flipToOrientation(flip: number): Orientation {
  const orientations: readonly Orientation[] = [1, 2, 4, 3, 5, 8, 6, 7];
  return orientations[flip & 7] ?? 1;
}

/** LibRaw reads an absent BaselineExposure as 0 and a broken one as a huge number. */
function statedExposure({ color_data }: LibRawMetadata): number | null {
  const ev = color_data.dng_levels.baseline_exposure;
  return ev !== 0 && Math.abs(ev) <= 5 ? ev : null;
}

/** LibRaw throws C++ objects without a message; only its standard error tells a cut file from an unreadable one. */
function failure(heard: readonly string[]): SetsideError {
  const cut = heard.some((line) => /unexpected end of file/i.test(line));
  return rawError(cut ? 'raw-cut' : 'raw-cannot-decode', { said: heard.join('; ') });
}

function rawError(code: DevelopErrorCode, details: Record<string, string | number>): SetsideError {
  return new SetsideError(code, developErrors[code], { details });
}
