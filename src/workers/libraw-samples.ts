import type { BadPixels, RawHints, Unpack } from '../develop/index.ts';
import type { Mosaic } from '../facts/index.ts';
import type { Region } from '../image/index.ts';
import { movedBad, placedLens } from './dng-lens.ts';
import { type LibRawMetadata, type LibRawMosaic, librawImage, librawMosaic } from './libraw-facts.ts';
import { binnedQuad, type FoundLayout, shiftedSix } from './libraw-layout.ts';
import type { LibRawHandle, LibRawModule } from './libraw-module.ts';
import { rawError } from './raw-error.ts';

type Samples = Pick<
  Mosaic,
  'values' | 'widthPx' | 'heightPx' | 'filters' | 'blackLevels' | 'whiteLevel' | 'layout'
>;

/** Samples with what is to be done to them, placed. */
export interface FoundSamples {
  readonly samples: Samples;
  readonly lens: Mosaic['lens'];
  readonly bad: BadPixels | null;
}

/** Samples of a mosaic, or of a sensor without filters, of the part that is the picture. */
export function mosaicSamples(
  handle: LibRawHandle,
  metadata: LibRawMetadata,
  layout: FoundLayout,
  hints: RawHints,
  unpack: Unpack,
): FoundSamples {
  const raw = unpacked(handle, metadata, unpack);
  const { black, maximum } = metadata.color_data;
  const { leftPx, topPx, ...samples } = visibleArea(raw, hints.crop, layout.kind === 'quad' ? 4 : 2);
  const { width, height, left_margin, top_margin } = raw;
  const area = { widthPx: width, heightPx: height };
  const bad = hints.lens?.bad ? movedBad(hints.lens.bad, top_margin + topPx, left_margin + leftPx) : null;
  const lens = hints.lens && placedLens(hints.lens, area, { leftPx, topPx });
  const whiteLevel = hints.whiteLevel ?? maximum;
  const levels = {
    blackLevels: hints.blackLevels ?? ([black, black, black, black] as const),
    whiteLevel,
  };
  switch (layout.kind) {
    case 'bayer':
      return { samples: { ...samples, filters: filtersOf(metadata), ...levels }, lens, bad };
    case 'quad':
      return { ...quadSamples(samples, hints, levels), bad: null };
    case 'six': {
      const filters = shiftedSix(layout.filters, topPx, leftPx);
      return { samples: { ...samples, ...nominal, ...levels, layout: { kind: 'six', filters } }, lens, bad };
    }
    case 'grey':
    case 'linear':
      return { samples: { ...samples, ...nominal, ...levels, layout }, lens, bad };
  }
}

/** The whole sensor; the samples are ours alone. Errors: `raw-unsupported-mosaic`; LibRaw's own objects. */
function unpacked(handle: LibRawHandle, metadata: LibRawMetadata, unpack: Unpack): LibRawMosaic {
  const { raw_width, raw_height, width, height } = metadata;
  const data = unpack(raw_width, raw_height);
  if (data !== null) {
    // The metadata tells the visible area as it is shown, turned where the camera was (bit 2 of flip).
    const isTurned = (metadata.flip & 4) !== 0;
    const area = isTurned ? { width: height, height: width } : { width, height };
    return { ...metadata, ...area, data };
  }
  const raw = librawMosaic.safeParse(handle.rawImageData());
  if (!raw.success) throw rawError('raw-unsupported-mosaic', { why: 'no mosaic' });
  return { ...raw.data, data: ownCopy(raw.data.data) };
}

/** Means nothing beside a layout. */
const nominal = { filters: [0, 1, 1, 2] as const };

/** A maker's corrections count samples that are no longer there; what is given by shares of the picture is left out too. */
function quadSamples(
  samples: Pick<Mosaic, 'values' | 'widthPx' | 'heightPx'>,
  { cfa }: RawHints,
  { blackLevels: [black], whiteLevel }: Pick<Mosaic, 'blackLevels' | 'whiteLevel'>,
): Pick<FoundSamples, 'samples' | 'lens'> {
  const { factor, ...binned } = binnedQuad(samples, cfa?.filters ?? [], whiteLevel);
  const level = black * factor;
  return {
    samples: { ...binned, blackLevels: [level, level, level, level], whiteLevel: whiteLevel * factor },
    lens: undefined,
  };
}

/**
 * Camera values of a picture that is demosaiced already, as LibRaw gives it without balance, matrix, curve or turning. It
 * takes black off by itself.
 */
export function linearSamples(
  module: LibRawModule,
  bytes: Uint8Array,
  metadata: LibRawMetadata,
  hints: RawHints,
): FoundSamples {
  const handle = new module.LibRaw();
  handle.open(bytes, asItIs);
  const image = librawImage.safeParse(handle.imageData());
  handle.delete();
  if (!image.success || image.data.data.length < image.data.width * image.data.height * 3) {
    throw rawError('raw-unsupported-mosaic', { why: 'no picture of three channels' });
  }
  const { width, height, data } = image.data;
  const whole = { width, height };
  const { leftPx, topPx, widthPx, heightPx } = usableCrop(whole, hints.crop, 1);
  const values = new Uint16Array(widthPx * heightPx * 3);
  for (let row = 0; row < heightPx; row++) {
    const start = ((topPx + row) * width + leftPx) * 3;
    values.set(data.subarray(start, start + widthPx * 3), row * widthPx * 3);
  }
  const whiteLevel = (hints.whiteLevel ?? metadata.color_data.maximum) - (hints.black ?? 0);
  // One plane each: what is done to samples of a mosaic is done to the picture.
  const { lens: stated } = hints;
  const steps = stated && { ...stated, samples: [], steps: [...stated.samples, ...stated.steps] };
  return {
    samples: {
      values,
      widthPx,
      heightPx,
      ...nominal,
      blackLevels: [0, 0, 0, 0],
      whiteLevel,
      layout: { kind: 'linear' },
    },
    lens: steps && placedLens(steps, { widthPx: width, heightPx: height }, { leftPx, topPx }),
    bad: null,
  };
}

/** See the traps named in `libraw-module.ts`: six numbers of gamma, four multipliers. */
const asItIs = {
  outputColor: 0,
  userMul: [1, 1, 1, 1],
  noAutoScale: true,
  noAutoBright: true,
  outputBps: 16,
  gamm: [1, 1, 0, 0, 0, 0],
  userFlip: 0,
};

/**
 * The picture out of the whole sensor, whose margins are masked pixels. Rows are moved together where they lie, since they are
 * ours alone: a second copy of a large mosaic costs as much as developing it.
 */
function visibleArea(
  raw: LibRawMosaic,
  crop: Region | undefined,
  step: number,
): Pick<Mosaic, 'values' | 'widthPx' | 'heightPx'> & Pick<Region, 'leftPx' | 'topPx'> {
  const { raw_width: stride, raw_height: rows } = raw;
  const inside =
    raw.left_margin + raw.width <= stride &&
    raw.top_margin + raw.height <= rows &&
    raw.data.length >= stride * rows;
  if (!inside) throw rawError('raw-cannot-decode', { why: 'the visible area lies outside the sensor' });
  const { leftPx, topPx, widthPx, heightPx } = usableCrop(raw, crop, step);
  const values = raw.data;
  for (let row = 0; row < heightPx; row++) {
    const from = (raw.top_margin + topPx + row) * stride + raw.left_margin + leftPx;
    if (from !== row * widthPx) values.copyWithin(row * widthPx, from, from + widthPx);
  }
  return { values: values.subarray(0, widthPx * heightPx), widthPx, heightPx, leftPx, topPx };
}

/** libraw-wasm 1.6.0 copies the mosaic out of its memory; a version that gave a view instead must not be written to. */
function ownCopy(data: Uint16Array<ArrayBuffer>): Uint16Array<ArrayBuffer> {
  return data.byteLength === data.buffer.byteLength ? data : data.slice();
}

/** Its corner is moved to a multiple of `step`. */
function usableCrop(
  { width, height }: Pick<LibRawMosaic, 'width' | 'height'>,
  crop: Region | undefined,
  step: number,
): Region {
  const whole = { leftPx: 0, topPx: 0, widthPx: width, heightPx: height };
  if (crop === undefined) return whole;
  const leftPx = crop.leftPx - (crop.leftPx % step);
  const topPx = crop.topPx - (crop.topPx % step);
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
