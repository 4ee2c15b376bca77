import { type ReactNode, useId, useState } from 'react';
import type { BagPlace, BagThere, Job } from '../../contract/index.ts';
import { bagLabels as labels } from '../../words/index.ts';
import { makeBag } from '../link/index.ts';

interface BagMakeProps {
  readonly places: readonly BagPlace[];
  readonly bags: readonly BagThere[];
  readonly jobs: readonly Job[];
  readonly job: string | null;
  readonly busy: boolean;
  readonly ask: (call: () => Promise<unknown>) => void;
}

/** Which job is packed, on which disk, into which folder. */
export function BagMake({ places, bags, jobs, job, busy, ask }: BagMakeProps): ReactNode {
  const id = useId();
  const [chosenJob, setJob] = useState<string | null>(null);
  const [chosenPlace, setPlace] = useState<string | null>(null);
  const [typed, setTyped] = useState<string | null>(null);
  const code = chosenJob ?? job ?? jobs[0]?.code ?? '';
  const place = places.find(({ folder }) => folder === chosenPlace) ?? places[0];
  if (place === undefined) return null;
  const top = place.folder.replace(/[\\/]+$/, '');
  const name = typed ?? freeName(top, code, bags);
  const folder = `${top}/${name.trim()}`;
  const isBegun = bags.some((each) => each.folder === folder && each.state === 'unfinished');
  return (
    <form
      className="hand-add"
      aria-label={labels.make}
      onSubmit={(event) => {
        event.preventDefault();
        ask(() => makeBag(code, folder));
      }}
    >
      <h3>{labels.make}</h3>
      <p className="hand-field">
        <label htmlFor={`${id}-job`}>{labels.job}</label>
        <select id={`${id}-job`} value={code} onChange={({ target }) => setJob(target.value)}>
          {jobs.map((each) => (
            <option key={each.code} value={each.code}>
              {each.code}
            </option>
          ))}
        </select>
      </p>
      <p className="hand-field">
        <label htmlFor={`${id}-place`}>{labels.place}</label>
        <select id={`${id}-place`} value={place.folder} onChange={({ target }) => setPlace(target.value)}>
          {places.map((each) => (
            <option key={each.folder} value={each.folder}>
              {`${each.folder}, ${labels.why[each.why]}`}
            </option>
          ))}
        </select>
      </p>
      <p className="hand-field">
        <label htmlFor={`${id}-name`}>{labels.name}</label>
        <input
          id={`${id}-name`}
          type="text"
          autoComplete="off"
          spellCheck={false}
          value={name}
          aria-describedby={`${id}-help`}
          onChange={({ target }) => setTyped(target.value)}
        />
        <small id={`${id}-help`}>{labels.nameHelp}</small>
      </p>
      <p className="hand-soft">{labels.becomes(folder)}</p>
      <p className="hand-acts">
        <button type="submit" className="press" disabled={busy || name.trim() === ''}>
          {isBegun ? labels.goOn : labels.begin}
        </button>
      </p>
    </form>
  );
}

/** The job's code, with a number where a whole package has it: one is never packed over another. */
function freeName(top: string, code: string, bags: readonly BagThere[]): string {
  const isTaken = (name: string): boolean =>
    bags.some(({ folder, state }) => state === 'whole' && folder === `${top}/${name}`);
  let name = code;
  for (let number = 2; isTaken(name); number += 1) name = `${code}-${number}`;
  return name;
}
