import type { ReactNode } from 'react';
import type { Job, JobPatch, Look } from '../../contract/index.ts';
import { jobPageLabels } from '../../words/index.ts';
import { patchJob } from '../link/index.ts';
import { LookChoice } from './look-choice.tsx';
import { TextField } from './text-field.tsx';
import type { Save } from './use-save.ts';

interface JobHandOverProps {
  readonly job: Job;
  /** Every version that is kept; null while they are not here. */
  readonly looks: readonly Look[] | null;
  readonly save: Save;
}

/** How the job will be handed over: kept for the pages that render and deliver. */
export function JobHandOver({ job, looks, save }: JobHandOverProps): ReactNode {
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
        <LookChoice
          none={jobPageLabels.plainLook}
          help={jobPageLabels.lookHelp}
          named={job}
          looks={looks}
          put={put}
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
