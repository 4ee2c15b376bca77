import { type ReactNode, useEffect, useState } from 'react';
import type { Job } from '../../contract/index.ts';
import { pageLabels, slateLabels, titleOf } from '../../words/index.ts';
import { fetchJob, fetchStation, patchJob } from '../link/index.ts';
import { SlatePages, SlateSheet } from './slate-sheets.tsx';
import '../style/slates.css';

type Papers = 'a4' | 'letter';

/** Slates to be printed: of the job that the address names (`?job=`), else of the open one. */
export function SlatesPage(): ReactNode {
  const [job, setJob] = useState<Job | null>(null);
  const [trouble, setTrouble] = useState('');
  const [paper, setPaper] = useState<Papers>('a4');
  const [sheet, setSheet] = useState(true);
  const [pages, setPages] = useState(true);
  useEffect(() => {
    const gone = new AbortController();
    loadJob(gone.signal).then(
      (found) => (found === null ? setTrouble(slateLabels.noJob) : setJob(found)),
      () => gone.signal.aborted || setTrouble(slateLabels.notReached),
    );
    return () => gone.abort();
  }, []);
  useEffect(() => {
    if (job !== null) document.title = titleOf(slateLabels.of(job.code));
  }, [job]);

  if (job === null) {
    return (
      <main className="slates">
        <div className="slates-head paper">
          <h1>{slateLabels.title}</h1>
          <p role="status">{trouble}</p>
        </div>
      </main>
    );
  }
  return (
    <main className="slates" data-paper={paper}>
      <div className="slates-head paper">
        <h1>{slateLabels.of(job.code)}</h1>
        <p>{job.shots.length === 0 ? slateLabels.noShots : slateLabels.lead}</p>
        <div className="slates-choices">
          <fieldset>
            <legend>{slateLabels.what}</legend>
            <Check label={slateLabels.sheet} checked={sheet} onChange={setSheet} />
            <Check label={slateLabels.pages} checked={pages} onChange={setPages} />
          </fieldset>
          <fieldset>
            <legend>{slateLabels.paper}</legend>
            {(['a4', 'letter'] as const).map((each) => (
              <label key={each}>
                <input type="radio" name="paper" checked={paper === each} onChange={() => setPaper(each)} />
                {slateLabels[each]}
              </label>
            ))}
          </fieldset>
          <button
            type="button"
            onClick={() => window.print()}
            disabled={job.shots.length === 0 || !(sheet || pages)}
          >
            {slateLabels.print}
          </button>
        </div>
        <GreyCardSwitch job={job} />
      </div>
      {sheet && job.shots.length > 0 ? <SlateSheet job={job} /> : null}
      {pages ? <SlatePages job={job} /> : null}
    </main>
  );
}

interface CheckProps {
  readonly label: string;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
}

function Check({ label, checked, onChange }: CheckProps): ReactNode {
  return (
    <label>
      <input type="checkbox" checked={checked} onChange={(event) => onChange(event.target.checked)} />
      {label}
    </label>
  );
}

/** Off for each job until somebody wants it: a grey backdrop close by would be taken for a card. */
function GreyCardSwitch({ job }: { readonly job: Job }): ReactNode {
  const [on, setOn] = useState(job.greyCard);
  const [lost, setLost] = useState(false);
  const change = (wanted: boolean): void => {
    setOn(wanted);
    patchJob(job.code, { greyCard: wanted }).then(
      () => setLost(false),
      () => {
        setOn(!wanted);
        setLost(true);
      },
    );
  };
  return (
    <div className="slates-grey">
      <Check label={slateLabels.greyCard} checked={on} onChange={change} />
      <p role="status">{lost ? pageLabels.notTaken : ''}</p>
    </div>
  );
}

async function loadJob(signal: AbortSignal): Promise<Job | null> {
  const named = new URLSearchParams(window.location.search).get('job');
  const code = named ?? (await fetchStation(signal)).job?.code ?? null;
  return code === null ? null : fetchJob(code, signal);
}
