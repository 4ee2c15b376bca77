import { type FormEvent, type ReactNode, useState } from 'react';
import type { Frame, Job, Look } from '../../contract/index.ts';
import { jobPageLabels } from '../../words/index.ts';
import { addShot, orderShots } from '../link/index.ts';
import { type PageState, shotStops } from '../state/index.ts';
import { ShotRow } from './shot-row.tsx';
import { useReorder } from './use-reorder.ts';
import type { Save } from './use-save.ts';

interface ShotListProps {
  readonly state: PageState;
  readonly job: Job;
  /** Of this job, in order of the day. */
  readonly frames: readonly Frame[];
  /** Every version that is kept; null while they are not here. */
  readonly looks: readonly Look[] | null;
  readonly save: Save;
}

/** The shots in the order of the day: each opens to be changed, and moves by drag or step by step. */
export function ShotList({ state, job, frames, looks, save }: ShotListProps): ReactNode {
  const [refusal, setRefusal] = useState('');
  const stops = shotStops(job, frames);
  const put = async (order: readonly string[]): Promise<void> =>
    setRefusal(await save(({ version }) => orderShots(job.code, order, version)));
  const ids = job.shots.map(({ id }) => id);
  const { held, over, grip } = useReorder(ids, put);
  return (
    <section aria-labelledby="shots-of-job">
      <h2 id="shots-of-job">{jobPageLabels.shots}</h2>
      <p role="status" className="refusal">
        {refusal}
      </p>
      <ol className="shot-list" data-dragging={held !== null}>
        {job.shots.map((shot, index) => (
          <ShotRow
            key={shot.id}
            job={job}
            shot={shot}
            number={index + 1}
            stop={stops[index]}
            cameras={state.station?.cameras ?? []}
            looks={looks}
            save={save}
            grip={grip}
            mark={held === shot.id ? 'held' : over === index ? 'over' : null}
            onStep={(by) => put(stepped(ids, index, by))}
          />
        ))}
      </ol>
      <AddShot job={job} save={save} />
    </section>
  );
}

/** The order with one shot a step on; as it is where there is no room. */
function stepped(ids: readonly string[], index: number, by: -1 | 1): readonly string[] {
  const [here, beside] = [ids[index], ids[index + by]];
  if (here === undefined || beside === undefined) return ids;
  return ids.with(index, beside).with(index + by, here);
}

function AddShot({ job, save }: Pick<ShotListProps, 'job' | 'save'>): ReactNode {
  const [name, setName] = useState('');
  const [refusal, setRefusal] = useState('');
  const add = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    // At once: what is typed before the station answers is the next shot's name. A name that was refused comes back, unless
    // there is another by then.
    setName('');
    const why = await save(() => addShot(job.code, { name: name.trim() }));
    setRefusal(why);
    if (why !== '') setName((now) => (now === '' ? name : now));
  };
  return (
    <form className="add-shot" onSubmit={add}>
      <label htmlFor="add-shot">{jobPageLabels.addShot}</label>
      <input
        id="add-shot"
        value={name}
        maxLength={120}
        autoComplete="off"
        placeholder={jobPageLabels.addShotExample}
        onChange={(event) => setName(event.target.value)}
      />
      <button type="submit" className="press" disabled={name.trim() === ''}>
        {jobPageLabels.add}
      </button>
      <p role="status" className="refusal">
        {refusal}
      </p>
    </form>
  );
}
