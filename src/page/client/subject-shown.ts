import type { Frame } from '../../contract/index.ts';
import type { ShareBox } from '../../facts/index.ts';
import { placeDrawing } from '../readings/geometry/place-drawing.ts';
import type { Placing } from '../readings/geometry/placing.ts';
import { boxShown } from './delivery-cut.ts';

/** What is photographed, as *in place* told it, in shares of the picture that is shown; null where it was not told. */
export function subjectShown(
  frame: Pick<Frame, 'readings'> | null,
  placing: Placing | null,
): ShareBox | null {
  if (frame === null || placing === null) return null;
  const { box } = placeDrawing(frame.readings, []);
  return box === null ? null : boxShown(box, placing.toShown);
}
