import { bracketFramesMax, findSeries, type TimedFrame } from '../../job/index.ts';
import type { FrameRow, Register } from '../../register/index.ts';

/** As many frames as may lie on either side of one in the longest bracket, with as many of a burst before them. */
const framesAround = 2 * bracketFramesMax;
/** A bracket of long exposures with its pauses; one that takes longer is not recognised. */
const reachMs = 60_000;

type Shot = Pick<FrameRow, 'id' | 'job' | 'camera' | 'orderMs' | 'shutterMs'>;

/** Ids of the bracket that a frame belongs to, itself among them; none where it belongs to none, or that is not here yet. */
export async function bracketAround(
  register: Pick<Register, 'framesPage'>,
  { id, job, camera, orderMs, shutterMs }: Shot,
): Promise<readonly string[]> {
  if (shutterMs === null) return [];
  const near: TimedFrame[] = [];
  const behind = { orderMs: orderMs - reachMs, id: '' };
  const { frames } = await register.framesPage({ job, camera, behind, limit: pageFrames });
  for (const row of frames) {
    if (row.shutterMs !== null && row.orderMs <= orderMs + reachMs) near.push(timedFrame(row, row.shutterMs));
  }
  const place = near.findIndex((each) => each.id === id);
  const series = findSeries(near.slice(Math.max(0, place - framesAround), place + framesAround));
  return series.find(({ kind, frames: of }) => kind === 'bracket' && of.includes(id))?.frames ?? [];
}

/** A frame as the search for series needs it. */
export function timedFrame(
  { id, camera, capture }: Pick<FrameRow, 'id' | 'camera' | 'capture'>,
  shutterMs: number,
): TimedFrame {
  return {
    id,
    camera,
    shutterMs,
    subSecondsKnown: capture?.shutter?.subSecondsKnown ?? false,
    exposureTimeS: capture?.exposureTimeS ?? null,
    fNumber: capture?.fNumber ?? null,
    sensitivity: capture?.sensitivity ?? null,
  };
}

/** More than a person presses the shutter in twice {@link reachMs}; behind a longer burst no bracket is recognised. */
const pageFrames = 60;
