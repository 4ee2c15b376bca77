import { type Dispatch, type ReactNode, useEffect, useRef } from 'react';
import type { Frame } from '../../contract/index.ts';
import { framesPhrase, jobLabels, jobTitle } from '../../words/index.ts';
import { patchFrame } from '../link/index.ts';
import { CardDialog } from '../set/card-dialog.tsx';
import { jobsForFrame, moveTo, type PageAction, type PageState, shotStops } from '../state/index.ts';
import { useCall } from './use-call.ts';

interface MoveCardProps {
  readonly state: PageState;
  readonly frame: Frame | null;
  readonly frames: readonly Frame[];
  readonly dispatch: Dispatch<PageAction>;
}

/** Which shot the shown frame goes to, by one more key: the first nine shots have a digit each. */
export function MoveCard({ state, frame, frames, dispatch }: MoveCardProps): ReactNode {
  const { refusal, run } = useCall();
  const list = useRef<HTMLDivElement>(null);
  const close = (): void => dispatch({ type: 'card-closed', card: 'move' });
  const open = state.card === 'move' && frame !== null;
  useEffect(() => {
    if (!open) return;
    const press = (event: KeyboardEvent): void => {
      if (!/^[1-9]$/.test(event.key) || event.ctrlKey || event.metaKey || event.altKey) return;
      list.current?.querySelector<HTMLButtonElement>(`button[data-digit="${event.key}"]`)?.click();
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [open]);
  const jobs = frame === null ? [] : jobsForFrame(state.jobs, frame);
  let digit = 0;
  return (
    <CardDialog title={frame === null ? '' : jobLabels.frameGoesTo(frame.name)} open={open} onClose={close}>
      {frame === null ? null : (
        <div className="choices" ref={list}>
          <p role="status" className="refusal">
            {refusal}
          </p>
          {jobs.length === 0 ? <p className="aside">{jobLabels.noJobToMoveTo}</p> : null}
          {jobs.map((job) => (
            <section key={job.code} className="move-to">
              <h3>{jobTitle(job)}</h3>
              <ol>
                {shotStops(job, frames).map((stop) => {
                  digit += 1;
                  const here = frame.job === job.code && frame.shot === stop.id;
                  return (
                    <li key={stop.id}>
                      <button
                        type="button"
                        data-digit={digit}
                        aria-pressed={here}
                        onClick={async () => {
                          const patch = moveTo(frame, job.code, stop.id);
                          if (here || (await run(() => patchFrame(frame.id, patch)))) close();
                        }}
                      >
                        {digit > 9 ? null : <kbd>{digit}</kbd>}
                        <span>{stop.name}</span>
                        <small>{stop.frames === 0 ? jobLabels.nothingYet : framesPhrase(stop.frames)}</small>
                      </button>
                    </li>
                  );
                })}
              </ol>
              {frame.job === job.code && frame.shot !== null ? (
                <button
                  type="button"
                  className="plain"
                  onClick={async () => {
                    if (await run(() => patchFrame(frame.id, { shot: null }))) close();
                  }}
                >
                  {jobLabels.outOfItsShot}
                </button>
              ) : null}
            </section>
          ))}
        </div>
      )}
    </CardDialog>
  );
}
