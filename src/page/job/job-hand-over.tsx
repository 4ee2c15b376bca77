import type { ReactNode } from 'react';
import type { Job, JobPatch } from '../../contract/index.ts';
import { jobPageLabels } from '../../words/index.ts';
import { patchJob } from '../link/index.ts';
import { TextField } from './text-field.tsx';
import type { Save } from './use-save.ts';

interface JobHandOverProps {
  readonly job: Job;
  readonly save: Save;
}

/** How the job will be handed over: kept for the pages that render and deliver. */
export function JobHandOver({ job, save }: JobHandOverProps): ReactNode {
  const put = (patch: JobPatch): Promise<string> => save(({ version }) => patchJob(job.code, patch, version));
  return (
    <section aria-labelledby="hand-over-of-job">
      <h2 id="hand-over-of-job">{jobPageLabels.handOver}</h2>
      <div className="entries-two">
        <TextField
          label={jobPageLabels.naming}
          value={job.naming}
          charactersMax={200}
          help={jobPageLabels.namingHelp}
          save={(naming) => put({ naming: naming.trim() })}
        />
        <TextField
          label={jobPageLabels.look}
          value={job.look ?? ''}
          charactersMax={120}
          help={jobPageLabels.lookHelp}
          save={(look) => put({ look: look.trim() === '' ? null : look.trim() })}
        />
        <TextField
          label={jobPageLabels.deliveries}
          value={job.deliveries.join(', ')}
          help={jobPageLabels.deliveriesHelp}
          save={(names) => put({ deliveries: namesIn(names) })}
        />
      </div>
    </section>
  );
}

/** Each once. */
function namesIn(text: string): string[] {
  const names = text.split(',').map((name) => name.trim());
  return [...new Set(names.filter((name) => name !== ''))];
}
