import type { Dispatch, ReactNode } from 'react';
import type { Frame, Remark } from '../../contract/index.ts';
import { remarkLabels, saidBy, speakerName } from '../../words/index.ts';
import { clockTime } from '../set/clock.ts';
import type { PageAction } from '../state/index.ts';

export interface OpenRemark {
  readonly frame: Frame;
  readonly remark: Remark;
}

/** What nobody has settled yet in a job, the newest word first. */
export function openRemarks(frames: readonly Frame[], job: string | null): OpenRemark[] {
  const open = frames.flatMap((frame) =>
    frame.job === job
      ? frame.remarks.flatMap((remark) => (remark.settled === null ? { frame, remark } : []))
      : [],
  );
  return open.sort((a, b) => lastWord(b.remark).localeCompare(lastWord(a.remark)));
}

/** When it was said, or answered last. */
function lastWord({ at, answers }: Remark): string {
  return answers.at(-1)?.at ?? at;
}

interface OpenRemarksProps {
  readonly frames: readonly Frame[];
  readonly job: string | null;
  /** The frame whose remarks are listed already. */
  readonly shown: string | null;
  readonly title?: string;
  readonly dispatch: Dispatch<PageAction>;
}

/** Remarks on other frames of the job that wait for somebody. */
export function OpenRemarks({
  frames,
  job,
  shown,
  title = remarkLabels.elsewhere,
  dispatch,
}: OpenRemarksProps): ReactNode {
  const elsewhere = openRemarks(frames, job).filter(({ frame }) => frame.id !== shown);
  if (elsewhere.length === 0) return null;
  return (
    <section className="open-remarks">
      <h3>{title}</h3>
      <ul>
        {elsewhere.map(({ frame, remark }) => (
          <li key={`${frame.id} ${remark.id}`} className="remark">
            <p className="remark-head">
              <strong>{frame.name}</strong>
              <span>{saidBy(speakerName(remark.by), clockTime(Date.parse(remark.at)))}</span>
            </p>
            <p className="remark-text">{remark.text}</p>
            <p className="say-acts">
              <button type="button" onClick={() => dispatch({ type: 'choose', id: frame.id })}>
                {remarkLabels.toFrame}
                <span className="unseen"> {frame.name}</span>
              </button>
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}
