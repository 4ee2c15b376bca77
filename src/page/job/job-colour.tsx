import type { ReactNode } from 'react';
import type { Job } from '../../contract/index.ts';
import { targetEditions, toleranceSets } from '../../facts/index.ts';
import { jobPageLabels, targetEditionNames } from '../../words/index.ts';
import { patchJob } from '../link/index.ts';
import type { Save } from './use-save.ts';

interface JobColourProps {
  readonly job: Job;
  readonly save: Save;
}

/** How colour is judged: which target is on the set, and by which limits. */
export function JobColour({ job, save }: JobColourProps): ReactNode {
  const edition = (value: string): Job['targetEdition'] =>
    targetEditions.find((known) => known === value) ?? null;
  return (
    <section className="job-colour" aria-labelledby="colour-of-job">
      <h2 id="colour-of-job">{jobPageLabels.colour}</h2>
      <p className="aside">{jobPageLabels.colourHelp}</p>
      <div className="entries-two entries-pair">
        <div className="entry">
          <label htmlFor="target-edition">{jobPageLabels.targetEdition}</label>
          <select
            id="target-edition"
            value={job.targetEdition ?? ''}
            onChange={({ target }) =>
              save(({ version }) => patchJob(job.code, { targetEdition: edition(target.value) }, version))
            }
          >
            <option value="">{jobPageLabels.targetRecognised}</option>
            {targetEditions.map((name) => (
              <option key={name} value={name}>
                {targetEditionNames[name]}
              </option>
            ))}
          </select>
        </div>
        <div className="entry">
          <label htmlFor="tolerance-set">{jobPageLabels.toleranceSet}</label>
          <select
            id="tolerance-set"
            value={job.toleranceSet ?? ''}
            onChange={({ target }) =>
              save(({ version }) =>
                patchJob(job.code, { toleranceSet: target.value === '' ? null : target.value }, version),
              )
            }
          >
            <option value="">{jobPageLabels.noToleranceSet}</option>
            {toleranceSets.map(({ name, title }) => (
              <option key={name} value={name}>
                {title}
              </option>
            ))}
          </select>
        </div>
      </div>
    </section>
  );
}
