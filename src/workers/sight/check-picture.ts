import sharp from 'sharp';
import { inspect, sourceOfBytes } from '../../formats/index.ts';
import { workerError } from '../errors.ts';
import { layoutEdgePxMax, layoutPixelsMax } from './layout-bounds.ts';
import type { CheckPictureAnswer, CheckPictureJob } from './messages.ts';

/**
 * The job `check-picture`: what kind of picture the bytes are and how large, after every row of it was decoded. The
 * size that the header announces is judged before anything is decoded.
 * Errors: `file-empty`, `not-a-picture`, `picture-is-raw`, `picture-too-large` with `width` and `height`,
 * `picture-cannot-decode`.
 */
export async function checkPicture({ bytes }: CheckPictureJob): Promise<CheckPictureAnswer> {
  const kind = finishedKind(bytes);
  try {
    const { width, height } = await sharp(bytes, { limitInputPixels: false }).metadata();
    if (width > layoutEdgePxMax || height > layoutEdgePxMax || width * height > layoutPixelsMax) {
      throw workerError('picture-too-large', { width, height });
    }
    // A picture cut short, or one whose rows do not unpack, is found out by unpacking them; libvips streams them.
    await sharp(bytes, {
      failOn: 'truncated',
      limitInputPixels: layoutPixelsMax,
      sequentialRead: true,
    }).stats();
    return { name: 'check-picture', kind, widthPx: width, heightPx: height };
  } catch (thrown) {
    if (thrown instanceof Error && 'code' in thrown && thrown.code === 'picture-too-large') throw thrown;
    const said = thrown instanceof Error ? thrown.message.slice(0, 200) : '';
    throw workerError('picture-cannot-decode', { said }, thrown);
  }
}

function finishedKind(bytes: Uint8Array): CheckPictureAnswer['kind'] {
  const { kind } = inspect(sourceOfBytes(bytes));
  switch (kind) {
    case 'jpeg':
    case 'png':
    case 'webp':
    case 'tiff':
      return kind;
    case 'dng':
    case 'tiff-raw':
    case 'iso-bmff-raw':
    case 'raf':
      throw workerError('picture-is-raw', { kind });
    case 'empty':
      throw workerError('file-empty');
    case 'text':
    case 'unknown':
      throw workerError('not-a-picture', { kind });
  }
}
