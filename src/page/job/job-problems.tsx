import type { ReactNode } from 'react';
import type { Frame, Job } from '../../contract/index.ts';
import { jobPageLabels, sentence } from '../../words/index.ts';
import { jobProblems, type PageState } from '../state/index.ts';

interface JobProblemsProps {
  readonly state: PageState;
  readonly job: Job;
  readonly frames: readonly Frame[];
}

/** What would go wrong, in sentences, and where the copies go. */
export function JobProblems({ state, job, frames }: JobProblemsProps): ReactNode {
  const problems = jobProblems(job, state.station, frames);
  const places = state.station?.secondPlaces ?? [];
  return (
    <section className="job-problems" aria-labelledby="problems-of-job">
      <h2 id="problems-of-job">{jobPageLabels.problems}</h2>
      {problems.length === 0 ? <p>{jobPageLabels.noProblems}</p> : null}
      <ul>
        {problems.map((finding) => (
          <li key={`${finding.code} ${Object.values(finding.args).join(' ')}`}>{sentence(finding)}</li>
        ))}
      </ul>
      {places.map(({ folder, otherDevice }) => (
        <p key={folder} className="written">
          {otherDevice === false
            ? jobPageLabels.placeThatDoesNotCount(folder)
            : jobPageLabels.copiesGoTo(folder)}
        </p>
      ))}
    </section>
  );
}
