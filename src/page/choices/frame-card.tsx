import type { Dispatch, ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { jobLabels } from '../../words/index.ts';
import { CardDialog } from '../set/card-dialog.tsx';
import { clockTime } from '../set/clock.ts';
import { SmallPicture } from '../set/small-picture.tsx';
import { addressOf, jobOf, momentOf, type PageAction, type PageState } from '../state/index.ts';
import { FrameAcceptances } from './frame-acceptances.tsx';
import { FrameLook } from './frame-look.tsx';
import { FrameMarks } from './frame-marks.tsx';
import { FramePlace } from './frame-place.tsx';
import { FramePurpose } from './frame-purpose.tsx';
import { FrameReference } from './frame-reference.tsx';
import { FrameShare } from './frame-share.tsx';
import { useCall } from './use-call.ts';

interface FrameCardProps {
  readonly state: PageState;
  readonly frame: Frame | null;
  readonly dispatch: Dispatch<PageAction>;
}

/** Everything that people choose of one frame, in plain words. */
export function FrameCard({ state, frame, dispatch }: FrameCardProps): ReactNode {
  const { refusal, run } = useCall();
  const closed = frame !== null && jobOf(state.jobs, frame.job)?.state === 'closed';
  return (
    <CardDialog
      title={frame?.name ?? ''}
      open={state.card === 'frame' && frame !== null}
      onClose={() => dispatch({ type: 'card-closed', card: 'frame' })}
    >
      {frame === null ? null : (
        <div className="choices">
          <div className="frame-head">
            <SmallPicture frame={frame} />
            <p>
              {frame.camera}, {clockTime(momentOf(frame))}
            </p>
          </div>
          <p role="status" className="refusal">
            {refusal}
          </p>
          <FrameMarks frame={frame} run={run} />
          <FrameShare frame={frame} run={run} />
          {closed ? (
            <p className="aside">
              {jobLabels.jobClosed(frame.job)}{' '}
              <a href={addressOf({ page: 'job', job: frame.job })}>{jobLabels.takeUpOnJobPage}</a>
            </p>
          ) : null}
          <fieldset disabled={closed} className="beyond-marks" aria-label={frame.name}>
            <FramePlace frame={frame} jobs={state.jobs} run={run} />
            <FramePurpose frame={frame} run={run} />
            <FrameLook frame={frame} run={run} />
            <FrameReference frame={frame} jobs={state.jobs} run={run} />
            <FrameAcceptances key={frame.id} frame={frame} run={run} />
          </fieldset>
          <p className="aside">{jobLabels.frameCardUndo}</p>
        </div>
      )}
    </CardDialog>
  );
}
