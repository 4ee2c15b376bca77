import { SetsideError } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import { jobLimits, type ListedShot, type Shot } from '../../job/index.ts';

/** Whether the station has a frame of this id, of whatever job: last season's reference is a good one. */
export type HasFrame = (frame: string) => Promise<boolean>;

/** The fields of a shot that name a frame. */
const naming = ['layout', 'reference'] as const;

/** What a shot newly names is there; what it named already stays, whatever it is. Throws `no-frame`. */
export async function assertFramesThere(
  has: HasFrame,
  before: Partial<Shot> | undefined,
  wish: { readonly layout?: string | null | undefined; readonly reference?: string | null | undefined },
): Promise<void> {
  for (const field of naming) {
    const frame = wish[field] ?? null;
    if (frame === null || frame === before?.[field] || (await has(frame))) continue;
    throw new SetsideError('no-frame', `the ${field} ${frame} is no frame of this station`);
  }
}

export interface CheckedList {
  readonly shots: readonly ListedShot[];
  readonly findings: readonly Finding[];
}

/**
 * A list without the frames that are not here, each of which is told: a list of another station names frames of that one,
 * and is of use without them. Of very many the first {@link jobLimits.badLinesMax} are told.
 */
export async function withoutStrangeFrames(
  has: HasFrame,
  listed: readonly ListedShot[],
): Promise<CheckedList> {
  const findings: Finding[] = [];
  const shots: ListedShot[] = [];
  for (const shot of listed) {
    const says = { ...shot.says };
    for (const field of naming) {
      const frame = says[field] ?? null;
      if (frame === null || (await has(frame))) continue;
      delete says[field];
      findings.push({
        code: 'shot-list.no-such-frame',
        args: { line: shot.line, column: field, frame: frame.slice(0, 64) },
      });
    }
    shots.push({ ...shot, says });
  }
  return { shots, findings: findings.slice(0, jobLimits.badLinesMax) };
}
