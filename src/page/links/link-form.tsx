import { type FormEvent, type ReactNode, useEffect, useId, useState } from 'react';
import type { Job, LinkScope, MadeLink } from '../../contract/index.ts';
import { linkLabels, linkLengths, pageLabels, scopeWords } from '../../words/index.ts';
import { fetchJobs, makeLink, wordsOf } from '../link/index.ts';
import { ShareChoice, type Shared } from './share-choice.tsx';

interface LinkFormProps {
  /** The job a guest is shown unless another is chosen. */
  readonly openJob: string | null;
  readonly onMade: (made: MadeLink) => void;
}

/** The most wanted first. */
const offered: readonly LinkScope[] = ['pocket', 'guest', 'operator'];
const minutesDefault = 12 * 60;

/** Whom a link is for, what it opens, and when it ends by itself. */
export function LinkForm({ openJob, onMade }: LinkFormProps): ReactNode {
  const id = useId();
  const [name, setName] = useState('');
  const [scope, setScope] = useState<LinkScope>('pocket');
  const [minutes, setMinutes] = useState(minutesDefault);
  const jobs = useJobs(scope === 'guest');
  const [chosen, setChosen] = useState<Shared | null>(null);
  const [answer, setAnswer] = useState('');
  const shared = chosen ?? firstShare(jobs, openJob);
  const isReady = name.trim() !== '' && (scope !== 'guest' || shared !== null);
  const make = (event: FormEvent): void => {
    event.preventDefault();
    const share =
      scope === 'guest' && shared !== null ? { share: { ...shared, shots: [...shared.shots] } } : {};
    makeLink({ scope, name: name.trim(), minutes, ...share }).then(onMade, (thrown: unknown) =>
      setAnswer(wordsOf(thrown, pageLabels.notTaken)),
    );
  };
  return (
    <form className="link-form" onSubmit={make}>
      <label htmlFor={id}>{linkLabels.forWhom}</label>
      <input
        id={id}
        value={name}
        placeholder={linkLabels.forWhomExample}
        maxLength={60}
        autoComplete="off"
        onChange={(event) => setName(event.target.value)}
      />
      <fieldset className="link-choice">
        <legend>{linkLabels.may}</legend>
        {offered.map((each) => (
          <label key={each}>
            <input
              type="radio"
              name={`${id}-scope`}
              checked={scope === each}
              onChange={() => setScope(each)}
            />
            {scopeWords[each]}
          </label>
        ))}
      </fieldset>
      {scope === 'guest' && jobs !== null ? (
        <ShareChoice jobs={jobs} shared={shared} onChange={setChosen} />
      ) : null}
      <label htmlFor={`${id}-end`}>{linkLabels.until}</label>
      <select id={`${id}-end`} value={minutes} onChange={(event) => setMinutes(Number(event.target.value))}>
        {linkLengths.map((length) => (
          <option key={length.minutes} value={length.minutes}>
            {length.words}
          </option>
        ))}
      </select>
      <button type="submit" disabled={!isReady}>
        {linkLabels.make}
      </button>
      <p role="status">{answer}</p>
    </form>
  );
}

function firstShare(jobs: readonly Job[] | null, openJob: string | null): Shared | null {
  const job = jobs?.find(({ code }) => code === openJob) ?? jobs?.[0];
  return job === undefined ? null : { job: job.code, shots: [] };
}

/** The jobs there are, once they are wanted. */
function useJobs(wanted: boolean): readonly Job[] | null {
  const [jobs, setJobs] = useState<readonly Job[] | null>(null);
  useEffect(() => {
    if (!wanted) return undefined;
    const stop = new AbortController();
    fetchJobs(stop.signal).then(setJobs, () => undefined);
    return () => stop.abort();
  }, [wanted]);
  return jobs;
}
