import { SetsideError } from '../base/index.ts';
import {
  assumedHeadroomEv,
  type DecodedRaw,
  mendBadPixels,
  type RawDecoder,
  type RawHints,
  type Unpack,
} from '../develop/index.ts';
import type { Mosaic } from '../facts/index.ts';
import type { Orientation } from '../image/index.ts';
import { type CameraColour, cameraColour } from './libraw-colour.ts';
import { type LibRawMetadata, librawMetadata } from './libraw-facts.ts';
import { layoutOf } from './libraw-layout.ts';
import { type LibRawHandle, type LibRawModule, startLibRaw } from './libraw-module.ts';
import { linearSamples, mosaicSamples } from './libraw-samples.ts';
import { rawError } from './raw-error.ts';

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
    async decode(bytes, hints = {}, unpack = () => null) {
      if (bytes.length > rawBytesMax)
        throw rawError('raw-too-large', { bytes: bytes.length, bytesMax: rawBytesMax });
      warm ??= start();
      const module = await warm;
      heard = [];
      const handle = new module.LibRaw();
      try {
        const decoded = decodeWith(module, handle, bytes, hints, unpack);
        handle.delete();
        return decoded;
      } catch (thrown) {
        warm = null;
        throw thrown instanceof SetsideError ? thrown : failure(heard);
      }
    },
  };
}

function decodeWith(
  module: LibRawModule,
  handle: LibRawHandle,
  bytes: Uint8Array,
  hints: RawHints,
  unpack: Unpack,
): DecodedRaw {
  handle.open(bytes, {});
  const metadata = librawMetadata.parse(handle.metadata(true));
  assertSize(metadata);
  const layout = layoutOf(metadata, hints);
  const found =
    layout.kind === 'linear'
      ? linearSamples(module, bytes, metadata, hints)
      : mosaicSamples(handle, metadata, layout, hints, unpack);
  const colour = layout.kind === 'grey' ? noColour : cameraColour(metadata, hints);
  const mosaic: Mosaic = {
    ...found.samples,
    asShotMultipliers: colour.asShotMultipliers,
    xyzToCamera: colour.xyzToCamera,
    ...(found.lens === undefined ? {} : { lens: found.lens }),
    ...(colour.asShotWhite === null ? {} : { asShotWhite: colour.asShotWhite }),
    orientation: hints.orientation ?? flipToOrientation(metadata.flip),
    baselineExposureEv: hints.baselineExposureEv ?? statedExposure(metadata) ?? assumedHeadroomEv,
  };
  assertLevels(mosaic);
  if (found.bad !== null) mendBadPixels(mosaic, found.bad);
  return { mosaic, colours: colour.colours, issues: colour.issues };
}

function assertSize(metadata: LibRawMetadata): void {
  const pixels = metadata.raw_width * metadata.raw_height;
  if (pixels > rawPixelsMax) throw rawError('raw-too-large', { pixels, pixelsMax: rawPixelsMax });
}

/** Grey has no colour to balance. */
const noColour: CameraColour = {
  asShotMultipliers: [1, 1, 1],
  xyzToCamera: null,
  asShotWhite: null,
  colours: 'none',
  issues: [],
};

function assertLevels({ blackLevels, whiteLevel }: Mosaic): void {
  const sound = blackLevels.every((black) => black >= 0 && black < whiteLevel) && whiteLevel <= 65_535;
  if (!sound) throw rawError('raw-cannot-decode', { black: blackLevels.join(' '), white: whiteLevel });
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
