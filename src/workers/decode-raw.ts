import { errorCode, SetsideError } from '../base/index.ts';
import { type DecodedRaw, developErrors, type RawDecoder, type RawHints } from '../develop/index.ts';
import { inspect, sourceOfBytes } from '../formats/index.ts';
import { dngHints } from './dng-hints.ts';
import { dngLens } from './dng-lens.ts';
import { dngSamples } from './dng-samples.ts';
import { rawBytesMax } from './libraw-decoder.ts';
import { type ReadBuffer, readOriginal } from './read-original.ts';

/** LibRaw takes nothing smaller for a picture (measured: 22 is decoded, 20 is not). */
const librawEdgeMin = 22;

/**
 * Reads (into `buffer`) and decodes a raw file: LibRaw's word, corrected by the tags, corrected by the caller's hints.
 * Errors: those of `RawDecoder`. LibRaw cannot always tell a cut file from an unreadable one; the structure can.
 */
export async function decodeRaw(
  decoder: RawDecoder,
  path: string,
  hints: RawHints | undefined,
  buffer?: ReadBuffer,
): Promise<DecodedRaw> {
  const bytes = await readOriginal(
    path,
    rawBytesMax,
    () =>
      new SetsideError('raw-too-large', developErrors['raw-too-large'], {
        details: { bytesMax: rawBytesMax },
      }),
    buffer,
  );
  const inspection = inspect(sourceOfBytes(bytes));
  const { dng } = inspection.tags;
  const lens = dng === null ? null : dngLens(dng, bytes);
  const unpack = dng === null ? undefined : dngSamples(dng, bytes);
  try {
    const told = { ...dngHints(inspection.tags, lens), ...hints };
    const decoded = await decoder.decode(bytes, told, unpack);
    return lens === null ? decoded : { ...decoded, issues: [...decoded.issues, ...lens.issues] };
  } catch (thrown) {
    const { pictureWidthPx: width, pictureHeightPx: height } = inspection;
    const edgePx = width === null || height === null ? null : Math.min(width, height);
    if (errorCode(thrown) === 'raw-cannot-decode' && edgePx !== null && edgePx < librawEdgeMin) {
      throw new SetsideError('raw-too-small', developErrors['raw-too-small'], {
        details: { edgePx, edgePxMin: librawEdgeMin },
        cause: thrown,
      });
    }
    if (errorCode(thrown) === 'raw-cannot-decode' && inspection.wholeness.kind === 'cut') {
      const { expectedBytes } = inspection.wholeness;
      throw new SetsideError('raw-cut', developErrors['raw-cut'], {
        details: { bytes: bytes.length, ...(expectedBytes === null ? {} : { expectedBytes }) },
        cause: thrown,
      });
    }
    throw thrown;
  }
}
