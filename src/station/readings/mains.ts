import type { ExposedFigures } from '../../facts/index.ts';
import type { FrameRow } from '../../register/index.ts';
import { pictureOfRow } from '../picture-of-row.ts';

/**
 * Stripes with their frequency, where it is known how long the camera takes from row to row, µs, and how many rows it has.
 * Worked out as the frame is judged, so that what is said of the camera today counts for yesterday's frames too.
 */
export function withHertz(
  exposed: ExposedFigures,
  { picture, capture }: Pick<FrameRow, 'picture' | 'capture'>,
  rowTimeUs: number | null,
): ExposedFigures {
  const { banding } = exposed;
  const shown = pictureOfRow({ picture });
  if (banding === null || rowTimeUs === null || shown.state !== 'rendered') return exposed;
  // Exif orientations from 5 on stand on their side: the sensor's rows are the picture's columns.
  const whole = shown.original ?? shown;
  const rows = (capture?.orientation ?? 1) >= 5 ? whole.width : whole.height;
  return { ...exposed, banding: { ...banding, hertz: banding.cycles / (rowTimeUs * 1e-6 * rows) } };
}
