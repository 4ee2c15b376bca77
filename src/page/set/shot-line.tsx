import { type Dispatch, type ReactNode, useEffect, useMemo, useRef } from 'react';
import type { Frame } from '../../contract/index.ts';
import { framesPhrase, jobLabels, pageLabels, sentence, shotName } from '../../words/index.ts';
import type { Carried } from '../choices/use-carry.ts';
import {
  addressOf,
  openJobOf,
  type PageAction,
  type PageState,
  type ShotStop,
  shotBeside,
  shotStops,
  trayFrames,
} from '../state/index.ts';

interface ShotLineProps {
  readonly state: PageState;
  readonly frames: readonly Frame[];
  /** The frame that is dragged over the line. */
  readonly carried: Carried | null;
  readonly stepShot: (by: -1 | 1) => void;
  readonly dispatch: Dispatch<PageAction>;
}

/** The job's shots as stops along the day's line, the current one named large. */
export function ShotLine({ state, frames, carried, stepShot, dispatch }: ShotLineProps): ReactNode {
  const summary = state.station?.job ?? null;
  // The whole job comes by its own call; until then the station's summary names its shots.
  const job = openJobOf(state.jobs) ?? summary;
  const stops = useMemo(() => shotStops(job, frames), [job, frames]);
  if (job === null || stops.length === 0) {
    return (
      <div className="shots paper">
        {state.station === null ? null : (
          <NoShots hasJob={job !== null} frames={frames} dispatch={dispatch} />
        )}
      </div>
    );
  }
  const current = stops.some((stop) => stop.current);
  return (
    <section
      className="shots paper"
      aria-label={pageLabels.shots}
      data-carrying={carried !== null}
      data-current={current}
    >
      <p className="job">
        <a href={addressOf({ page: 'job', job: null })}>
          <strong>{job.title === '' ? job.code : job.title}</strong>
        </a>
        {current ? <span>{job.client}</span> : <span>{jobLabels.noShotCurrent}</span>}
        {state.station?.demo === true ? <em>{pageLabels.demo}</em> : null}
        <Tray frames={frames} dispatch={dispatch} />
      </p>
      <Step by={-1} job={job} stepShot={stepShot} />
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard to be scrolled */}
      <ol className="stops" tabIndex={0} aria-label={pageLabels.shots}>
        {stops.map((stop) => (
          <Stop
            key={stop.id}
            stop={stop}
            over={carried?.over === stop.id}
            carrying={carried !== null}
            dispatch={dispatch}
          />
        ))}
      </ol>
      <Step by={1} job={job} stepShot={stepShot} />
    </section>
  );
}

interface StopProps {
  readonly stop: ShotStop;
  readonly over: boolean;
  /** While a frame is dragged the line stays; then it goes back to where it is shot. */
  readonly carrying: boolean;
  readonly dispatch: Dispatch<PageAction>;
}

function Stop({ stop, over, carrying, dispatch }: StopProps): ReactNode {
  const element = useRef<HTMLLIElement>(null);
  useEffect(() => {
    if (stop.current && !carrying) element.current?.scrollIntoView({ block: 'nearest', inline: 'center' });
  }, [stop.current, carrying]);
  return (
    <li
      ref={element}
      className="stop"
      data-state={stop.state}
      data-shot-id={stop.id}
      data-over={over}
      {...(stop.current ? { 'aria-current': 'step' as const } : {})}
    >
      <button type="button" onClick={() => dispatch({ type: 'card', card: { shot: stop.id } })}>
        <span className="stop-name">{stop.name}</span>
        <span className="stop-state">{stateWords(stop)}</span>
      </button>
    </li>
  );
}

interface StepProps {
  readonly by: -1 | 1;
  readonly job: Parameters<typeof shotBeside>[0];
  readonly stepShot: (by: -1 | 1) => void;
}

/** Stays where it is at the ends of the line, so that nothing beside it moves. */
function Step({ by, job, stepShot }: StepProps): ReactNode {
  const beside = shotBeside(job, by);
  const words = by < 0 ? jobLabels.shotBefore : jobLabels.nextShot;
  return (
    <button
      type="button"
      className="step-shot"
      aria-label={beside === null ? words : `${words}: ${shotName(beside, job.shots)}`}
      title={words}
      disabled={beside === null}
      onClick={() => stepShot(by)}
    >
      <span aria-hidden="true">{by < 0 ? '←' : '→'}</span>
    </button>
  );
}

function Tray({
  frames,
  dispatch,
}: {
  readonly frames: readonly Frame[];
  readonly dispatch: Dispatch<PageAction>;
}): ReactNode {
  const count = trayFrames(frames).length;
  if (count === 0) return null;
  return (
    <button type="button" className="tray-note" onClick={() => dispatch({ type: 'card', card: 'tray' })}>
      {jobLabels.inTheTray(framesPhrase(count))}
    </button>
  );
}

/** Where frames go without a job or without shots, and what can be done about it. */
function NoShots({
  hasJob,
  frames,
  dispatch,
}: {
  readonly hasJob: boolean;
  readonly frames: readonly Frame[];
  readonly dispatch: Dispatch<PageAction>;
}): ReactNode {
  return (
    <p className="no-shots">
      <span>{sentence({ code: hasJob ? 'page.no-shots' : 'page.no-job', args: {} })}</span>
      <a href={addressOf({ page: 'job', job: null })}>
        {hasJob ? jobLabels.addShots : jobLabels.makeOrOpenJob}
      </a>
      <Tray frames={frames} dispatch={dispatch} />
    </p>
  );
}

function stateWords(stop: ShotStop): string {
  if (stop.state === 'open') return pageLabels.shotOpen;
  const taken = framesPhrase(stop.frames);
  return stop.heroes === 0 ? taken : `${taken}, ${jobLabels.heroesThere(stop.heroes)}`;
}
