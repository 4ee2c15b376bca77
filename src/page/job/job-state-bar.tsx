import { type ReactNode, useState } from 'react';
import type { Job, JobPatch } from '../../contract/index.ts';
import {
  contactLabels,
  handOverLabels,
  jobPageLabels,
  jobStateWords,
  slateLabels,
  strikeLabels,
} from '../../words/index.ts';
import { patchJob } from '../link/index.ts';
import { addressOf } from '../state/index.ts';
import type { Save } from './use-save.ts';

interface JobStateBarProps {
  readonly job: Job;
  readonly save: Save;
}

/** What the job's state means, and the ways out of it. */
export function JobStateBar({ job, save }: JobStateBarProps): ReactNode {
  const [refusal, setRefusal] = useState('');
  const change = async (patch: JobPatch): Promise<void> =>
    setRefusal(await save(() => patchJob(job.code, patch)));
  // A job without a current shot takes frames to none: whoever opens it means to shoot its first.
  const opened: JobPatch = {
    state: 'open',
    ...(job.currentShot === null && job.shots[0] !== undefined ? { currentShot: job.shots[0].id } : {}),
  };
  return (
    <section className="state-bar" aria-label={jobStateWords[job.state]} data-state={job.state}>
      <p>{jobStateWords[job.state]}</p>
      <p className="acts">
        {job.state === 'open' ? (
          <button type="button" onClick={() => change({ state: 'waiting' })}>
            {jobPageLabels.layAside}
          </button>
        ) : (
          <button type="button" onClick={() => change(opened)}>
            {job.state === 'closed' ? jobPageLabels.reopen : jobPageLabels.open}
          </button>
        )}
        {job.state === 'closed' ? (
          <button type="button" onClick={() => change({ state: 'waiting' })}>
            {jobPageLabels.takeUp}
          </button>
        ) : (
          <button type="button" title={jobPageLabels.closeSure} onClick={() => change({ state: 'closed' })}>
            {jobPageLabels.closeJob}
          </button>
        )}
        <a href={addressOf({ page: 'sheet', job: job.code })}>{contactLabels.title}</a>
        <a href={addressOf({ page: 'call-sheet', job: job.code })}>{jobPageLabels.callSheet}</a>
        <a href={addressOf({ page: 'strike', job: job.code })}>{strikeLabels.title}</a>
        <a href={addressOf({ page: 'hand-over', job: job.code })}>{handOverLabels.title}</a>
        <a href={`/slates?job=${encodeURIComponent(job.code)}`}>{slateLabels.title}</a>
      </p>
      <p role="status" className="refusal">
        {refusal}
      </p>
    </section>
  );
}
