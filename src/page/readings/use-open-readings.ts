import { useMemo } from 'react';
import type { Frame, Job } from '../../contract/index.ts';
import { heldAgainst, jobOf, type PageState } from '../state/index.ts';
import type { Laid } from './laid-painter.ts';
import { type Picking, usePicking } from './spot-controls.tsx';
import { useLaid } from './use-laid.ts';
import { type LaidSwitch, useLaidChoice } from './use-laid-choice.ts';
import { type Measuring, useMeasuring } from './use-measuring.ts';
import { type Readings, useReadings } from './use-readings.ts';
import { type ReferencePicture, useReference } from './use-reference.ts';

export interface OpenReadings extends Readings {
  readonly laid: LaidSwitch;
  /** What lies over the picture now. */
  readonly over: Laid | null;
  readonly reference: ReferencePicture;
  readonly isReference: boolean;
  readonly picking: Picking;
  readonly measuring: Measuring;
  /** The frame's; null while it lies in the tray. */
  readonly job: Job | null;
}

/** What the open verdict shows of a frame, beside the picture and over it. */
export function useOpenReadings({ open, jobs, frames }: PageState, frame: Frame | null): OpenReadings {
  const laid = useLaidChoice();
  const picking = usePicking();
  const measuring = useMeasuring(frame?.id ?? null);
  const readings = useReadings(frame, open !== null && open !== 'arrived');
  const against = useMemo(() => (frame === null ? null : heldAgainst(frame)), [frame]);
  const reference = useReference(against, frames, open === 'inPlace');
  const over = useLaid(open, frame, readings.readings, laid.choice, reference);
  const job = frame === null ? null : jobOf(jobs, frame.job);
  const shot = job?.shots.find(({ id }) => id === frame?.shot);
  return {
    ...readings,
    laid,
    picking,
    measuring,
    over,
    job,
    reference,
    isReference: shot?.reference === frame?.id && frame !== null,
  };
}
