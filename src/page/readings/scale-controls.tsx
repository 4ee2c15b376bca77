import { type FormEvent, type ReactNode, useEffect, useId, useRef, useState } from 'react';
import type { Frame, Job, NewScale } from '../../contract/index.ts';
import { readingLabels, scaleToldPhrase } from '../../words/index.ts';
import { useCall } from '../choices/use-call.ts';
import { scaleGone, setScale } from '../link/index.ts';
import type { Measuring } from './use-measuring.ts';

interface ScaleControlsProps {
  readonly frame: Frame;
  /** The frame's; null while it lies in the tray. */
  readonly job: Job | null;
  readonly measuring: Measuring;
}

/** How large things are in the shot's pictures: who said it, and how to say it, so that In place can tell millimetres. */
export function ScaleControls({ frame, job, measuring }: ScaleControlsProps): ReactNode {
  const { run, refusal } = useCall();
  const shot = job?.shots.find(({ id }) => id === frame.shot) ?? null;
  if (job === null || shot === null || frame.picture.state !== 'rendered') return null;
  const [a, b] = measuring.points;
  const hasTarget = frame.readings.targetWidthPx !== undefined;
  const say = (mm: number, points?: NewScale['points']): void => {
    void run(() => setScale(job.code, shot.id, { frame: frame.id, mm, points })).then((taken) => {
      if (taken) measuring.leave();
    });
  };
  return (
    <div className="plot" data-plot="scale">
      <h3>{readingLabels.scale}</h3>
      <p>{scaleToldPhrase(shot.scale, null)}</p>
      {shot.scale !== null && frame.readings.mmPerPx === undefined ? (
        <p>{readingLabels.scaleNotHere}</p>
      ) : null}
      {a !== undefined && b !== undefined ? (
        <Length label={readingLabels.pointsApart} isNext take={(mm) => say(mm, [a, b])} />
      ) : null}
      {hasTarget && measuring.points.length < 2 && !measuring.on ? (
        <Length label={readingLabels.patchesApart} take={(mm) => say(mm)} />
      ) : null}
      <div className="spot-acts">
        <button
          type="button"
          aria-pressed={measuring.on}
          onClick={measuring.on ? measuring.leave : measuring.begin}
        >
          {measuring.on ? readingLabels.markingPoints : readingLabels.markPoints}
        </button>
        {shot.scale === null ? null : (
          <button type="button" onClick={() => run(() => scaleGone(job.code, shot.id))}>
            {readingLabels.takeBack}
          </button>
        )}
      </div>
      <p role="status">{refusal}</p>
    </div>
  );
}

interface LengthProps {
  readonly label: string;
  /** It has just been asked for: the next thing typed is meant for it. */
  readonly isNext?: boolean;
  readonly take: (mm: number) => void;
}

/** A length on the set, taken by Enter or the button. */
function Length({ label, isNext = false, take }: LengthProps): ReactNode {
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (isNext) field.current?.focus();
  }, [isNext]);
  const [text, setText] = useState('');
  const mm = Number(text.trim().replace(',', '.'));
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    if (mm > 0) take(mm);
  };
  return (
    <form className="length" onSubmit={submit}>
      <label htmlFor={id}>{label}</label>
      <span className="length-field">
        <input
          ref={field}
          id={id}
          value={text}
          inputMode="decimal"
          size={6}
          onChange={(event) => setText(event.target.value)}
        />
        mm
        <button type="submit" disabled={!(mm > 0)}>
          {readingLabels.takeLength}
        </button>
      </span>
    </form>
  );
}
