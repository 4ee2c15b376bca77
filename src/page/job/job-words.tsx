import type { ReactNode } from 'react';
import type { Job, JobPatch } from '../../contract/index.ts';
import { jobPageLabels } from '../../words/index.ts';
import { patchJob } from '../link/index.ts';
import { TextField } from './text-field.tsx';
import type { Save } from './use-save.ts';

interface JobWordsProps {
  readonly job: Job;
  readonly save: Save;
}

/** For whom, when, where, and what everybody should know. */
export function JobWords({ job, save }: JobWordsProps): ReactNode {
  const put = (patch: JobPatch): Promise<string> => save(({ version }) => patchJob(job.code, patch, version));
  const day =
    (field: 'from' | 'to') =>
    async (value: string): Promise<string> => {
      const days = { from: job.from, to: job.to, [field]: value === '' ? null : value };
      if (days.from !== null && days.to !== null && days.to < days.from) return jobPageLabels.badDay;
      return put({ [field]: days[field] });
    };
  return (
    <section className="entries-two">
      <TextField
        label={jobPageLabels.title}
        value={job.title}
        charactersMax={120}
        save={(title) => put({ title })}
      />
      <TextField
        label={jobPageLabels.client}
        value={job.client}
        charactersMax={120}
        save={(client) => put({ client })}
      />
      <TextField
        label={jobPageLabels.place}
        value={job.place}
        charactersMax={120}
        save={(place) => put({ place })}
      />
      <div className="days">
        <TextField label={jobPageLabels.from} type="date" value={job.from ?? ''} save={day('from')} />
        <TextField label={jobPageLabels.to} type="date" value={job.to ?? ''} save={day('to')} />
      </div>
      <TextField
        label={jobPageLabels.notes}
        value={job.notes}
        lines={4}
        charactersMax={2000}
        help={jobPageLabels.notesHelp}
        save={(notes) => put({ notes })}
      />
    </section>
  );
}
