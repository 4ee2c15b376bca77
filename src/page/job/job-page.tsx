import { type Dispatch, type ReactNode, useEffect, useMemo, useState } from 'react';
import type { Job } from '../../contract/index.ts';
import { jobPageLabels, lookLabels } from '../../words/index.ts';
import { lookAddress } from '../look/subject.ts';
import { JobMetadata } from '../metadata/job-metadata.tsx';
import { framesOf, jobOf, openJobOf, type PageAction, type PageState } from '../state/index.ts';
import { askBeforeLeaving, DraftPlace } from './drafts.ts';
import { JobColour } from './job-colour.tsx';
import { JobHandOver } from './job-hand-over.tsx';
import { JobList } from './job-list.tsx';
import { JobProblems } from './job-problems.tsx';
import { JobStateBar } from './job-state-bar.tsx';
import { JobTolerances } from './job-tolerances.tsx';
import { JobWords } from './job-words.tsx';
import { ListFiles } from './list-files.tsx';
import { NewJob } from './new-job.tsx';
import { ShotList } from './shot-list.tsx';
import { TakenAwayShots } from './taken-away-shots.tsx';
import { TopLine } from './top-line.tsx';
import { useEveryLook } from './use-every-look.ts';
import { useSave } from './use-save.ts';

interface JobPageProps {
  readonly state: PageState;
  /** The job that the address names; null for the open one, else the newest. */
  readonly code: string | null;
  readonly dispatch: Dispatch<PageAction>;
}

/** The jobs of this station, and one of them with its list of shots and its settings. */
export function JobPage({ state, code, dispatch }: JobPageProps): ReactNode {
  const { jobs } = state;
  const job = code === null ? (openJobOf(jobs) ?? jobs?.[0] ?? null) : jobOf(jobs, code);
  const [making, setMaking] = useState(false);
  useEffect(askBeforeLeaving, []);
  return (
    <div className="page-paper" data-surround={state.dimSurround ? 'dim' : 'grey'}>
      <TopLine state={state} />
      <nav className="job-list paper" aria-label={jobPageLabels.jobs}>
        <JobList jobs={jobs ?? []} shown={job?.code ?? null} />
        <button type="button" className="press" aria-expanded={making} onClick={() => setMaking(!making)}>
          {jobPageLabels.newJob}
        </button>
      </nav>
      <main className="job-sheet paper">
        {making || jobs?.length === 0 ? (
          <NewJob jobs={jobs ?? []} dispatch={dispatch} onMade={() => setMaking(false)} />
        ) : null}
        {jobs === null ? <p>{jobPageLabels.loading}</p> : null}
        {jobs !== null && job === null && code !== null && !making ? (
          <p role="alert">{jobPageLabels.noSuchJob(code)}</p>
        ) : null}
        {job === null || making ? null : (
          <JobSheet key={job.code} state={state} job={job} dispatch={dispatch} />
        )}
      </main>
    </div>
  );
}

interface JobSheetProps {
  readonly state: PageState;
  readonly job: Job;
  readonly dispatch: Dispatch<PageAction>;
}

function JobSheet({ state, job, dispatch }: JobSheetProps): ReactNode {
  const save = useSave(job, dispatch);
  const frames = useMemo(
    () => framesOf(state.frames).filter((frame) => frame.job === job.code),
    [state.frames, job.code],
  );
  const looks = useEveryLook(state.looksSeen);
  const closed = job.state === 'closed';
  return (
    <DraftPlace value={job.code}>
      <h1>
        {job.title === '' ? job.code : job.title}
        <small>{job.code}</small>
      </h1>
      <p className="aside">
        <a href={lookAddress({ job: job.code })}>{lookLabels.toLook}</a>
      </p>
      <JobStateBar job={job} save={save} />
      <JobProblems state={state} job={job} frames={frames} />
      <fieldset disabled={closed} className="sheet-part">
        <legend className="unseen">{job.code}</legend>
        <JobWords job={job} save={save} />
        <ShotList state={state} job={job} frames={frames} looks={looks} save={save} />
        <TakenAwayShots job={job} frames={frames} save={save} />
        <ListFiles job={job} dispatch={dispatch} />
        <JobTolerances job={job} save={save} />
        <JobColour job={job} save={save} />
        <JobHandOver job={job} looks={looks} save={save} />
      </fieldset>
      <JobMetadata job={job} jobs={state.jobs ?? []} frames={frames} save={save} />
    </DraftPlace>
  );
}
