import { type ReactNode, useState } from 'react';
import type { Frame, Job, LookUse } from '../../../contract/index.ts';
import { lookLabels, shotName } from '../../../words/index.ts';
import type { Base } from '../state/base.ts';

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
    const use = placesGiven(chosen, frame, job);
    if (use !== null) onGive(use).then((isTaken) => setSaid(isTaken ? lookLabels.given : ''));
  };
  const box = (receiver: Receiver, words: string): ReactNode => (
    <label key={receiver}>
      <input type="checkbox" checked={chosen.has(receiver)} onChange={() => toggle(receiver)} />
      {words}
    </label>
  );
  const closed = job?.state === 'closed';
  const isFinished = frame?.picture.state === 'rendered' && frame.picture.source === 'raster';
  const hint = isFinished
    ? lookLabels.notOnThis
    : version === null
      ? lookLabels.saveFirst
      : lookLabels.giveHint;
  return (
    <fieldset className="panel-group give-form" disabled={version === null || closed}>
      <legend>{lookLabels.copyTo}</legend>
      <div className="give-boxes">
        {frame === null || isFinished ? null : box('frame', lookLabels.toFrame)}
        {job === null ? null : box('job', lookLabels.toJob)}
        {job?.shots.map((shot) => box(`shot ${shot.id}`, shotName(shot, job.shots)))}
      </div>
      <div className="give-row">
        <button type="button" className="press give-press" disabled={chosen.size === 0} onClick={give}>
          {lookLabels.give}
        </button>
        <p role="status" className="panel-hint">
          {said === '' ? hint : said}
        </p>
      </div>
    </fieldset>
  );
}

/** All that is chosen in one call, so that it is one act with one undo; null where nothing is. */
export function placesGiven(
  chosen: ReadonlySet<Receiver>,
  frame: Pick<Frame, 'id'> | null,
  job: Pick<Job, 'code' | 'shots'> | null,
): LookUse | null {
  const shots = job?.shots.map(({ id }) => id).filter((id) => chosen.has(`shot ${id}`)) ?? [];
  const isWhole = chosen.has('job');
  const ofJob =
    job === null || (shots.length === 0 && !isWhole)
      ? {}
      : {
          job: job.code,
          ...(shots.length > 0 ? { shots } : {}),
          ...(shots.length > 0 && isWhole ? { whole: true as const } : {}),
        };
  const use = { ...ofJob, ...(frame !== null && chosen.has('frame') ? { frames: [frame.id] } : {}) };
  return Object.keys(use).length === 0 ? null : use;
}
