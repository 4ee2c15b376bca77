import type { EpochMs } from '../../base/index.ts';
import type { ShareBox, SharpFigures } from '../../facts/index.ts';
import type { FrameRow, FramesQuery, Register } from '../../register/index.ts';

/** As many frames of a shot are read again when somebody points out a spot for all of them: those of an hour. */
const framesMax = 300;
/** Boxes are turned with the picture and back; what that leaves over is no other box. */
const sameShare = 1e-6;

/** A frame as far as spots are concerned. */
export interface SpottedRow extends Pick<FrameRow, 'id' | 'job' | 'shot' | 'orderMs' | 'spot'> {
  readonly readings: { readonly sharp: Pick<SharpFigures, 'spot'> } | null;
}

/** Where frames are looked up. */
export interface SpottedFrames {
  row(id: string): Promise<SpottedRow | null>;
  rows(query: FramesQuery): Promise<{ readonly frames: readonly SpottedRow[] }>;
}

/** The spot that a person pointed out for a frame: on itself, or on one of its shot before it; null for none. */
export async function spotFor(
  register: Pick<Register, 'spotOnward'>,
  row: Omit<SpottedRow, 'readings'>,
): Promise<ShareBox | null> {
  return row.spot?.box ?? register.spotOnward(row);
}

/** After a spot was pointed out on a frame, or taken back: it and those of its shot behind it that were read elsewhere. */
export async function readElsewhere(
  book: SpottedFrames,
  register: Pick<Register, 'spotOnward'>,
  frame: string,
): Promise<readonly { readonly id: string; readonly orderMs: EpochMs }[]> {
  const row = await book.row(frame);
  if (row === null) return [];
  const { job, shot, id, orderMs } = row;
  const behind =
    shot === null ? [] : (await book.rows({ job, shot, behind: { orderMs, id }, limit: framesMax })).frames;
  let onward = await register.spotOnward(row);
  const stale: { id: string; orderMs: EpochMs }[] = [];
  for (const each of [row, ...behind]) {
    if (each.spot?.onward === true) onward = each.spot.box;
    const wanted = each.spot?.box ?? onward;
    if (each.readings !== null && isElsewhere(each.readings, wanted))
      stale.push({ id: each.id, orderMs: each.orderMs });
  }
  return stale;
}

/**
 * Tells of rows, each after those before it in the day, whether they were read elsewhere than where people pointed: what a
 * station that was killed in between has left.
 */
export class SpotsOfTheDay {
  /** The newest spot for the frames behind it, by job and shot. */
  readonly #onward = new Map<string, ShareBox>();

  isReadElsewhere({ job, shot, spot, readings }: SpottedRow): boolean {
    const place = JSON.stringify([job, shot]);
    if (shot !== null && spot?.onward === true) this.#onward.set(place, spot.box);
    const wanted = spot?.box ?? (shot === null ? null : (this.#onward.get(place) ?? null));
    return readings !== null && isElsewhere(readings, wanted);
  }
}

function isElsewhere(
  { sharp: { spot } }: NonNullable<SpottedRow['readings']>,
  wanted: ShareBox | null,
): boolean {
  const given = spot !== null && spot.teller === 'given' ? spot : null;
  if (wanted === null || given === null) return wanted !== given;
  return (['left', 'top', 'right', 'bottom'] as const).some(
    (side) => Math.abs(wanted[side] - given[side]) > sameShare,
  );
}
