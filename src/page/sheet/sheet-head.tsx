import type { ReactNode, RefObject } from 'react';
import { contactLabels, framesPhrase, handOverLabels } from '../../words/index.ts';
import { useNarrow } from '../set/use-media.ts';
import { addressOf, type PageState, trayCode } from '../state/index.ts';
import { SheetAsks } from './sheet-asks.tsx';
import type { Field } from './sheet-field.tsx';
import { SheetLine } from './sheet-line.tsx';
import { titleOf } from './sheet-title.ts';
import type { SheetGroup } from './state/sheet-groups.ts';
import type { Sheet } from './use-sheet.ts';

interface SheetHeadProps extends Pick<Sheet, 'job' | 'cameras' | 'wish' | 'change'> {
  readonly state: PageState;
  /** Whether the station has such a job. */
  readonly isKnown: boolean;
  readonly groups: readonly SheetGroup[];
  /** What was refused; empty where nothing was. */
  readonly trouble: string;
  /** Frames that lie on the sheet. */
  readonly count: number;
  readonly field: RefObject<Field | null>;
}

/** Whose frames lie here, the ways from here, the shots along the day, and what is asked for. */
export function SheetHead(props: SheetHeadProps): ReactNode {
  const { state, job, isKnown, groups, cameras, wish, change, trouble, count, field } = props;
  const narrow = useNarrow();
  const showShot = (shot: string): void => {
    const at = groups.findIndex(({ id }) => id === shot);
    const box = field.current?.scroller.current;
    const place = field.current?.layout.places[at];
    if (box != null && place !== undefined) box.scrollTop = place.top;
  };

  const toFrames = (): void => {
    field.current?.scroller.current?.querySelector<HTMLElement>('.sheet-cell[tabindex="0"]')?.focus();
  };
  return (
    <header className="sheet-head paper">
      <h1>
        <span className="unseen">{contactLabels.title}: </span>
        <JobChoice state={state} code={job.code} />
      </h1>
      <nav className="sheet-ways" aria-label={contactLabels.ways}>
        <button type="button" className="to-frames" onClick={toFrames}>
          {contactLabels.toFrames}
        </button>
        {job.code === trayCode || !isKnown ? null : (
          <>
            <a href={addressOf({ page: 'job', job: job.code })}>{contactLabels.toJob}</a>
            <a href={addressOf({ page: 'strike', job: job.code })}>{contactLabels.toStrike}</a>
            <a href={addressOf({ page: 'hand-over', job: job.code })}>{handOverLabels.title}</a>
          </>
        )}
      </nav>
      <SheetLine job={job} groups={groups} all={state.allFrames} onShot={showShot} />
      <details className="sheet-more" open={!narrow}>
        <summary>{contactLabels.ask}</summary>
        <SheetAsks job={job} cameras={cameras} wish={wish} change={change} />
      </details>
      <p className="sheet-said" role="status" data-trouble={trouble !== ''}>
        {trouble !== ''
          ? trouble
          : state.allFrames
            ? framesPhrase(count)
            : contactLabels.reading(framesPhrase(count))}
      </p>
    </header>
  );
}

/** Whose frames lie here; a list, since a studio has many jobs. */
function JobChoice({ state, code }: { readonly state: PageState; readonly code: string }): ReactNode {
  const jobs = state.jobs ?? [];
  const codes = [...jobs.map((job) => job.code), trayCode];
  return (
    <select
      className="sheet-job"
      aria-label={contactLabels.job}
      title={titleOf(state, code)}
      value={code}
      onChange={(event) => {
        location.hash = addressOf({ page: 'sheet', job: event.target.value });
      }}
    >
      {(codes.includes(code) ? codes : [code, ...codes]).map((each) => (
        <option key={each} value={each}>
          {titleOf(state, each)}
        </option>
      ))}
    </select>
  );
}
