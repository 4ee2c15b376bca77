import { type ReactNode, useEffect, useMemo, useRef } from 'react';
import type { Frame, JobSummary } from '../../contract/index.ts';
import { framesPhrase, pageLabels, sentence } from '../../words/index.ts';
import { type ShotStop, shotStops } from '../state/index.ts';

interface ShotLineProps {
  readonly job: JobSummary | null;
  /** The job and its frames are invented. */
  readonly demo: boolean;
  readonly frames: readonly Frame[];
  /** Whether the station has been heard at all. */
  readonly known: boolean;
}

/** The job's shots as stops along the day's line, the current one named large. */
export function ShotLine({ job, demo, frames, known }: ShotLineProps): ReactNode {
  const stops = useMemo(() => shotStops(job, frames), [job, frames]);
  if (job === null || stops.length === 0) {
    const code = job === null ? 'page.no-job' : 'page.no-shots';
    return (
      <div className="shots paper">
        {known ? <p className="no-shots">{sentence({ code, args: {} })}</p> : null}
      </div>
    );
  }
  return (
    <section className="shots paper" aria-label={pageLabels.shots}>
      <p className="job">
        <strong>{job.title}</strong>
        <span>{job.client}</span>
        {demo ? <em>{pageLabels.demo}</em> : null}
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard to be scrolled */}
      <ol className="stops" tabIndex={0} aria-label={pageLabels.shots}>
        {stops.map((stop) => (
          <Stop key={stop.id} stop={stop} />
        ))}
      </ol>
    </section>
  );
}

function Stop({ stop }: { readonly stop: ShotStop }): ReactNode {
  const element = useRef<HTMLLIElement>(null);
  useEffect(() => {
    if (stop.current) element.current?.scrollIntoView({ block: 'nearest', inline: 'center' });
  }, [stop.current]);
  return (
    <li
      ref={element}
      className="stop"
      data-state={stop.state}
      {...(stop.current ? { 'aria-current': 'step' as const } : {})}
    >
      <span className="stop-name">{stop.name}</span>
      <span className="stop-state">{stateWords(stop)}</span>
    </li>
  );
}

function stateWords(stop: ShotStop): string {
  if (stop.state === 'open') return pageLabels.shotOpen;
  const taken = framesPhrase(stop.frames);
  return stop.state === 'chosen' ? `${taken}, ${pageLabels.shotChosen}` : taken;
}
