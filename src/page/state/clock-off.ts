import type { CameraEntry } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';

/** Less than this is no matter for the order of frames, ms. */
const nearEnoughMs = 100;

/**
 * By how much a camera's clock is off beyond what is corrected already, as its last clock slate showed; null where
 * nothing was seen, or the difference is no larger than the measuring.
 */
export function clockOffBy({
  name,
  clockSeen,
  clockOffsetMs,
}: Pick<CameraEntry, 'name' | 'clockSeen' | 'clockOffsetMs'>): Finding | null {
  if (clockSeen === null) return null;
  const aheadMs = clockOffsetMs - clockSeen.offsetMs;
  const { plusMinusMs } = clockSeen;
  if (Math.abs(aheadMs) <= Math.max(plusMinusMs, nearEnoughMs)) return null;
  return { code: 'slate.clock', args: { camera: name, aheadMs, plusMinusMs } };
}
