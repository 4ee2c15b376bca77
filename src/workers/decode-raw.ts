import { errorCode, SetsideError } from '../base/index.ts';
import { type DecodedRaw, developErrors, type RawDecoder, type RawHints } from '../develop/index.ts';
import { inspect, sourceOfBytes } from '../formats/index.ts';
import { dngHints } from './dng-hints.ts';
import { dngLens } from './dng-lens.ts';
import { dngSamples } from './dng-samples.ts';
import { rawBytesMax } from './libraw-decoder.ts';
import { type ReadBuffer, readOriginal } from './read-original.ts';

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
