import { type ReactNode, useId } from 'react';
import type { Job } from '../../contract/index.ts';
import { linkLabels, shotName } from '../../words/index.ts';

/** What a guest is shown: all of a job where no shot is named. */
export interface Shared {
  readonly job: string;
  readonly shots: readonly string[];
}

interface ShareChoiceProps {
  readonly jobs: readonly Job[];
  readonly shared: Shared | null;
  readonly onChange: (shared: Shared) => void;
}

/** Which job, and whether all of it. */
export function ShareChoice({ jobs, shared, onChange }: ShareChoiceProps): ReactNode {
  const id = useId();
  const job = jobs.find(({ code }) => code === shared?.job);
  if (shared === null || job === undefined) return <p className="link-no-jobs">{linkLabels.noJobs}</p>;
  const toggled = (shot: string): readonly string[] =>
    shared.shots.includes(shot) ? shared.shots.filter((each) => each !== shot) : [...shared.shots, shot];
  return (
    <>
      <label htmlFor={id}>{linkLabels.job}</label>
      <select
        id={id}
        value={shared.job}
        onChange={(event) => onChange({ job: event.target.value, shots: [] })}
      >
        {jobs.map(({ code, title }) => (
          <option key={code} value={code}>
            {title === '' ? code : `${title} (${code})`}
          </option>
        ))}
      </select>
      {job.shots.length === 0 ? null : (
        <fieldset className="link-choice">
          <legend>{linkLabels.shots}</legend>
          <label>
            <input
              type="checkbox"
              checked={shared.shots.length === 0}
              onChange={() => onChange({ job: shared.job, shots: [] })}
            />
            {linkLabels.allShots}
          </label>
          {job.shots.map((shot) => (
            <label key={shot.id}>
              <input
                type="checkbox"
                checked={shared.shots.includes(shot.id)}
                onChange={() => onChange({ job: shared.job, shots: toggled(shot.id) })}
              />
              {shotName(shot, job.shots)}
            </label>
          ))}
        </fieldset>
      )}
    </>
  );
}
