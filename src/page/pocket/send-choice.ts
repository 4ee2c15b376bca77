import type { Frame } from '../../contract/index.ts';
import { patchFrameShot, patchMark } from '../link/index.ts';
import type { PocketChoice } from './way-back.ts';

/**
 * Sends what a phone chose for a frame as it is shown. Rejects `changed-meanwhile` where somebody else has chosen otherwise since;
 * two quick taps of one's own are taken one behind the other.
 */
export async function sendChoice(frame: Frame, { mark, shot }: PocketChoice): Promise<void> {
  if (mark !== undefined) await patchMark(frame, mark);
  if (shot !== undefined) await patchFrameShot(frame, shot);
}
