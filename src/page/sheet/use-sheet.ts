import { useDeferredValue, useMemo, useState } from 'react';
import { framesOf, jobOf, openJobOf, type PageState, trayCode } from '../state/index.ts';
import { useSame } from '../use-same.ts';
import { camerasOf } from './sheet-asks.tsx';
import { noFilter } from './state/sheet-filter.ts';
import { type SheetGroup, type SheetJob, type SheetWish, sheetGroups } from './state/sheet-groups.ts';

export interface Sheet {
  readonly job: SheetJob;
  readonly groups: readonly SheetGroup[];
  /** Every frame that is asked for, once, as they lie on the sheet. */
  readonly lying: readonly string[];
  /** Which took them, by name. */
  readonly cameras: readonly string[];
  readonly wish: SheetWish;
  readonly change: (part: Partial<SheetWish>) => void;
}

/** The tray, as a job without shots. */
const tray: SheetJob = { code: trayCode, shots: [] };

/**
 * What lies on the sheet of a job; null: the open one's, else the newest one's. Frames that come in while one works are laid
 * down behind what one does: an answer to a key never waits for them.
 */
export function useSheet(state: PageState, code: string | null): Sheet {
  const [wish, setWish] = useState<SheetWish>({ filter: noFilter, sort: 'time', byShot: true });
  const { jobs } = state;
  const job =
    code === trayCode
      ? tray
      : (jobOf(jobs, code) ?? (code === null ? (openJobOf(jobs) ?? jobs?.[0] ?? tray) : { code, shots: [] }));
  const known = useDeferredValue(state.frames);
  const frames = useMemo(() => framesOf(known), [known]);
  const all = state.allFrames;
  const groups = useMemo(
    // While earlier frames are being read nobody knows that a shot has none.
    () => sheetGroups(job, frames, wish).filter((group) => all || group.whole > 0),
    [job, frames, wish, all],
  );
  const lying = useSame(useMemo(() => groups.flatMap((group) => group.frames.map(({ id }) => id)), [groups]));
  const cameras = useSame(useMemo(() => camerasOf(frames, job.code), [frames, job.code]));
  return {
    job,
    groups,
    lying,
    cameras,
    wish,
    change: (part) => setWish((before) => ({ ...before, ...part })),
  };
}
