import type { BoundedReader } from './bounded-reader.ts';
import type { ByteRange } from './byte-source.ts';
import { frameInside } from './jpeg-head.ts';
import { isViewable } from './jpeg-markers.ts';
import type { Preview } from './preview.ts';
import type { PixelSize } from './structure-inspection.ts';

/**
 * A JPEG at `run` as a preview. Its own frame header outranks the size that was `announced`; null, with a warning, where there
 * is none that can be shown (no JPEG, lossless, 12 bits).
 */
export function jpegPreviewAt(
  reader: BoundedReader,
  run: ByteRange,
  announced: PixelSize | null,
  colourSpace: Preview['colourSpace'],
): Preview | null {
  const frame = frameInside(reader, run);
  if (frame === 'none' || (frame !== 'pending' && !isViewable(frame))) {
    reader.warn('preview-not-viewable', run.offset);
    return null;
  }
  const said = frame === 'pending' ? announced : frame;
  return {
    ...run,
    widthPx: said?.widthPx ?? null,
    heightPx: said?.heightPx ?? null,
    compression: 'jpeg',
    complete: frame !== 'pending' && run.offset + run.length <= reader.source.sizeBytes,
    colourSpace,
  };
}
