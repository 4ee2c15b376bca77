import { type Dispatch, type FormEvent, type ReactNode, useId, useState } from 'react';
import type { Job } from '../../contract/index.ts';
import { jobPageLabels, jobTitle, pageLabels } from '../../words/index.ts';
import { makeJob, wordsOf } from '../link/index.ts';
import { addressOf, type PageAction } from '../state/index.ts';

interface NewJobProps {
  readonly jobs: readonly Job[];
  readonly dispatch: Dispatch<PageAction>;
  readonly onMade: () => void;
}

/** A new job, from nothing or like an earlier one. */
export function NewJob({ jobs, dispatch, onMade }: NewJobProps): ReactNode {
  const id = useId();
  const [refusal, setRefusal] = useState('');
  const make = async (event: FormEvent<HTMLFormElement>): Promise<void> => {
    event.preventDefault();
    const given = new FormData(event.currentTarget);
    const text = (name: string): string => String(given.get(name) ?? '').trim();
    const copyOf = text('copyOf');
    // What is left empty is the copied job's.
    const words = Object.fromEntries(
      (['title', 'client', 'place'] as const)
        .map((name) => [name, text(name)])
        .filter(([, said]) => said !== ''),
    );
    try {
      const job = await makeJob({
        code: text('code'),
        ...words,
        ...(copyOf === '' ? {} : { copyOf }),
        open: given.get('open') !== null,
      });
      dispatch({ type: 'event', event: { type: 'job', code: job.code, job } });
      location.hash = addressOf({ page: 'job', job: job.code });
      onMade();
    } catch (thrown) {
      setRefusal(wordsOf(thrown, pageLabels.notTaken));
    }
  };
  return (
    <form className="new-job" onSubmit={make} aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>{jobPageLabels.newJob}</h2>
      <Plain
        name="code"
        label={jobPageLabels.code}
        help={jobPageLabels.codeHelp}
        required
        charactersMax={40}
      />
      <Plain name="title" label={jobPageLabels.title} />
      <Plain name="client" label={jobPageLabels.client} />
      <Plain name="place" label={jobPageLabels.place} />
      {jobs.length === 0 ? null : (
        <div className="entry">
          <label htmlFor={`${id}-copy`}>{jobPageLabels.copyOf}</label>
          <select id={`${id}-copy`} name="copyOf" defaultValue="" aria-describedby={`${id}-copy-help`}>
            <option value="">{jobPageLabels.copyOfNone}</option>
            {jobs.map((job) => (
              <option key={job.code} value={job.code}>
                {jobTitle(job)}
              </option>
            ))}
          </select>
          <small id={`${id}-copy-help`}>{jobPageLabels.copyOfHelp}</small>
        </div>
      )}
      <label className="tick">
        <input type="checkbox" name="open" defaultChecked />
        {jobPageLabels.openAtOnce}
      </label>
      <p role="status" className="refusal">
        {refusal}
      </p>
      <button type="submit" className="press">
        {jobPageLabels.make}
      </button>
    </form>
  );
}

interface PlainProps {
  readonly name: string;
  readonly label: string;
  readonly help?: string;
  readonly required?: boolean;
  readonly charactersMax?: number;
}

function Plain({ name, label, help, required = false, charactersMax = 120 }: PlainProps): ReactNode {
  const id = useId();
  return (
    <div className="entry">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        name={name}
        maxLength={charactersMax}
        required={required}
        spellCheck={false}
        autoComplete="off"
        {...(help === undefined ? {} : { 'aria-describedby': `${id}-help` })}
      />
      {help === undefined ? null : <small id={`${id}-help`}>{help}</small>}
    </div>
  );
}
