import { type ReactNode, useState } from 'react';
import type { Frame, Job, LookUse } from '../../../contract/index.ts';
import { lookLabels, shotName } from '../../../words/index.ts';
import type { Base } from '../state/working.ts';

interface GiveFormProps {
  /** What would be given; null while the look is not saved as it is. */
  readonly version: Base | null;
  readonly frame: Frame | null;
  readonly job: Job | null;
  readonly onGive: (use: LookUse) => Promise<boolean>;
}

export type Receiver = 'frame' | 'job' | `shot ${string}`;

/** Gives the saved version to shots, to the whole job, or to this frame alone. */
export function GiveForm({ version, frame, job, onGive }: GiveFormProps): ReactNode {
  const [chosen, setChosen] = useState<ReadonlySet<Receiver>>(new Set());
  const [said, setSaid] = useState('');
  const toggle = (receiver: Receiver): void => {
    const next = new Set(chosen);
    if (!next.delete(receiver)) next.add(receiver);
    setChosen(next);
    setSaid('');
  };
  const give = (): void => {
    const uses = usesOf(chosen, frame, job);
    Promise.all(uses.map(onGive)).then((taken) => setSaid(taken.every(Boolean) ? lookLabels.given : ''));
  };
  const box = (receiver: Receiver, words: string): ReactNode => (
    <label key={receiver}>
      <input type="checkbox" checked={chosen.has(receiver)} onChange={() => toggle(receiver)} />
      {words}
    </label>
  );
  const closed = job?.state === 'closed';
  return (
    <fieldset className="panel-group give-form" disabled={version === null || closed}>
      <legend>{lookLabels.copyTo}</legend>
      <div className="give-boxes">
        {frame === null ? null : box('frame', lookLabels.toFrame)}
        {job === null ? null : box('job', lookLabels.toJob)}
        {job?.shots.map((shot) => box(`shot ${shot.id}`, shotName(shot, job.shots)))}
      </div>
      <button type="button" className="press" disabled={chosen.size === 0} onClick={give}>
        {lookLabels.give}
      </button>
      <p role="status" className="panel-hint">
        {version === null ? lookLabels.saveFirst : said === '' ? lookLabels.giveHint : said}
      </p>
    </fieldset>
  );
}

/** Shots and the job itself are two calls, since shots in a call leave the job's own look alone. */
export function usesOf(
  chosen: ReadonlySet<Receiver>,
  frame: Pick<Frame, 'id'> | null,
  job: Pick<Job, 'code' | 'shots'> | null,
): LookUse[] {
  const shots = job?.shots.map(({ id }) => id).filter((id) => chosen.has(`shot ${id}`)) ?? [];
  const frames = frame !== null && chosen.has('frame') ? { frames: [frame.id] } : {};
  const ofShots = job !== null && shots.length > 0 ? { job: job.code, shots } : null;
  const ofJob = job !== null && chosen.has('job') ? { job: job.code } : null;
  const uses: LookUse[] = [ofShots, ofJob].filter((use) => use !== null);
  const [first, ...others] = uses;
  if (first === undefined) return chosen.has('frame') ? [frames] : [];
  return [{ ...first, ...frames }, ...others];
}
