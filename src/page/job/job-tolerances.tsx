import type { ReactNode } from 'react';
import type { Job } from '../../contract/index.ts';
import { jobPageLabels } from '../../words/index.ts';
import { patchJob } from '../link/index.ts';
import { withLimits } from './limits-in.ts';
import { ToleranceRows } from './tolerance-rows.tsx';
import type { Save } from './use-save.ts';

interface JobTolerancesProps {
  readonly job: Job;
  readonly save: Save;
}

export function JobTolerances({ job, save }: JobTolerancesProps): ReactNode {
  return (
    <section aria-labelledby="tolerances-of-job">
      <h2 id="tolerances-of-job">{jobPageLabels.tolerances}</h2>
      <p className="aside">{jobPageLabels.tolerancesHelp}</p>
      <ToleranceRows
        tolerances={job.tolerances}
        isScaled={job.shots.some(({ scale }) => scale !== null)}
        save={(name, limits) =>
          save(({ tolerances, version }) =>
            patchJob(job.code, { tolerances: withLimits(tolerances, name, limits) }, version),
          )
        }
      />
    </section>
  );
}
