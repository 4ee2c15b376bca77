import { type ReactNode, useState } from 'react';
import type { Frame, Job } from '../../contract/index.ts';
import { isOfTheShoot } from '../../facts/index.ts';
import { framesPhrase, jobPageLabels } from '../../words/index.ts';
import { bringShotBack } from '../link/index.ts';
import type { Save } from './use-save.ts';

interface TakenAwayShotsProps {
  readonly job: Job;
  /** Of this job. */
  readonly frames: readonly Frame[];
  readonly save: Save;
}

/** Shots that were taken from the list while they had frames, each with the way back; nothing where there is none. */
export function TakenAwayShots({ job, frames, save }: TakenAwayShotsProps): ReactNode {
  const [refusal, setRefusal] = useState('');
  if (job.takenAway.length === 0) return null;
  const bringBack = async (shot: string): Promise<void> =>
    setRefusal(await save(({ version }) => bringShotBack(job.code, shot, version)));
  return (
    <section className="taken-away" aria-labelledby="taken-away">
      <h3 id="taken-away">{jobPageLabels.takenAway}</h3>
      <p className="aside">{jobPageLabels.takenAwayHelp}</p>
      <ul>
        {job.takenAway.map(({ id, name }) => (
          <li key={id}>
            <strong className="taken-name">{name}</strong>
            <span>
              {framesPhrase(frames.filter((frame) => frame.shot === id && isOfTheShoot(frame)).length)}
            </span>
            <button type="button" className="press" onClick={() => bringBack(id)}>
              {jobPageLabels.bringBack}
              <span className="unseen"> {name}</span>
            </button>
          </li>
        ))}
      </ul>
      <p role="status" className="refusal">
        {refusal}
      </p>
    </section>
  );
}
