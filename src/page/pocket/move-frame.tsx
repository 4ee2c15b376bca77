import { type ReactNode, useState } from 'react';
import type { Frame, JobSummary } from '../../contract/index.ts';
import { pocketLabels } from '../../words/index.ts';
import { patchFrame } from '../link/index.ts';
import { CardDialog } from '../set/card-dialog.tsx';
import { LeaveButton } from './leave-button.tsx';
import type { Vibration } from './use-vibration.ts';

interface MoveFrameProps {
  readonly frame: Frame | null;
  readonly job: JobSummary | null;
  readonly attempt: (change: Promise<unknown>) => void;
  readonly vibration: Vibration;
}

/** Says to which shot the frame belongs and moves it to another; beside it the switch for vibration. */
export function MoveFrame({ frame, job, attempt, vibration }: MoveFrameProps): ReactNode {
  const [open, setOpen] = useState(false);
  const canMove = frame !== null && job !== null && frame.job === job.code && job.shots.length > 0;
  const own = job?.shots.find(({ id }) => id === frame?.shot);
  return (
    <div className="pocket-move">
      <button type="button" disabled={!canMove} onClick={() => setOpen(true)}>
        {own === undefined ? pocketLabels.moveTo : `${own.name}: ${pocketLabels.moveTo.toLowerCase()}`}
      </button>
      {vibration.can ? (
        <button type="button" aria-pressed={vibration.on} onClick={vibration.toggle}>
          {pocketLabels.vibrate}
        </button>
      ) : null}
      <LeaveButton label={pocketLabels.leave} attempt={attempt} />
      <CardDialog title={pocketLabels.moveTitle} open={open && canMove} onClose={() => setOpen(false)}>
        <ul className="pocket-shots">
          {job?.shots.map((shot) => (
            <li key={shot.id}>
              <button
                type="button"
                aria-pressed={shot.id === frame?.shot}
                onClick={() => {
                  setOpen(false);
                  if (frame !== null && shot.id !== frame.shot)
                    attempt(patchFrame(frame.id, { shot: shot.id }));
                }}
              >
                {shot.name}
              </button>
            </li>
          ))}
        </ul>
      </CardDialog>
    </div>
  );
}
