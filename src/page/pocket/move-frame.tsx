import { type ReactNode, useState } from 'react';
import type { Frame, JobSummary } from '../../contract/index.ts';
import { clientLabels, pocketLabels, shotName, soundLabels } from '../../words/index.ts';
import { CardDialog } from '../set/card-dialog.tsx';
import { addressOf } from '../state/index.ts';
import { type Sound, SoundForm, soundState } from '../voice/index.ts';
import { LeaveButton } from './leave-button.tsx';
import { TryLine } from './try-line.tsx';
import type { Vibration } from './use-vibration.ts';
import type { PocketChoice } from './way-back.ts';

interface MoveFrameProps {
  readonly frame: Frame | null;
  readonly job: JobSummary | null;
  readonly choose: (chosen: PocketChoice) => void;
  /** Null: there is nothing to take back. */
  readonly takeBack: (() => void) | null;
  readonly attempt: (change: Promise<unknown>) => void;
  readonly vibration: Vibration;
  readonly sound: Sound;
}

/** Says to which shot the frame belongs and moves it to another; beside it the way back, what is felt and heard. */
export function MoveFrame({
  frame,
  job,
  choose,
  takeBack,
  attempt,
  vibration,
  sound,
}: MoveFrameProps): ReactNode {
  const [open, setOpen] = useState(false);
  const [hears, setHears] = useState(false);
  const canMove = frame !== null && job !== null && frame.job === job.code && job.shots.length > 0;
  const own = job?.shots.find(({ id }) => id === frame?.shot);
  return (
    <div className="pocket-move">
      <button type="button" disabled={!canMove} onClick={() => setOpen(true)}>
        {own === undefined
          ? pocketLabels.moveTo
          : `${shotName(own, job?.shots ?? [])}: ${pocketLabels.moveTo.toLowerCase()}`}
      </button>
      <button
        type="button"
        className="pocket-back"
        aria-label={pocketLabels.takeBack}
        title={pocketLabels.takeBack}
        disabled={takeBack === null}
        onClick={() => takeBack?.()}
      >
        <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
          <path d="M9 4 4 9l5 5M4 9h10a5 5 0 0 1 0 10h-4" />
        </svg>
      </button>
      {vibration.can ? (
        <button type="button" aria-pressed={vibration.on} onClick={vibration.toggle}>
          {pocketLabels.vibrate}
        </button>
      ) : null}
      <button type="button" data-sound={soundState(sound)} onClick={() => setHears(true)}>
        {soundLabels.title}
      </button>
      <TryLine />
      <a className="pocket-client paper" href={addressOf({ page: 'client' })}>
        {clientLabels.title}
      </a>
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
                  if (frame !== null && shot.id !== frame.shot) choose({ shot: shot.id });
                }}
              >
                {shotName(shot, job.shots)}
              </button>
            </li>
          ))}
        </ul>
      </CardDialog>
      <CardDialog title={soundLabels.title} open={hears} onClose={() => setHears(false)}>
        <SoundForm sound={sound} />
      </CardDialog>
    </div>
  );
}
