import type { ChosenOfFrame } from '../job/index.ts';
import type { FrameRow } from '../register/index.ts';

/** What was chosen of a frame so far, as the rules take it. */
export function chosenOf(row: FrameRow): ChosenOfFrame {
  const { id, mark, job, shot, purpose, spot, look, share, acceptances, placedBy, slate } = row;
  return { id, mark, job, shot, purpose, spot, look, share, acceptances, placedBy, slate };
}
