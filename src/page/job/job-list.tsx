import type { ReactNode } from 'react';
import type { Job } from '../../contract/index.ts';
import { jobPageLabels, jobStateShort } from '../../words/index.ts';
import { addressOf } from '../state/index.ts';

interface JobListProps {
  readonly jobs: readonly Job[];
  readonly shown: string | null;
}

/** Every job, the newest opened first; the open one is marked by a word and a filled square. */
export function JobList({ jobs, shown }: JobListProps): ReactNode {
  if (jobs.length === 0) return <p className="aside">{jobPageLabels.noJobYet}</p>;
  return (
    <ol>
      {jobs.map((job) => (
        <li key={job.code} data-state={job.state}>
          <a
            href={addressOf({ page: 'job', job: job.code })}
            {...(job.code === shown ? { 'aria-current': 'page' as const } : {})}
          >
            <strong>{job.title === '' ? job.code : job.title}</strong>
            <span>
              {[job.title === '' ? '' : job.code, job.client].filter((text) => text !== '').join(', ')}
            </span>
            <span>{jobStateShort[job.state]}</span>
          </a>
        </li>
      ))}
    </ol>
  );
}
