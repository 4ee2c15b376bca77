import { type FormEvent, type ReactNode, useId, useState } from 'react';
import { strikeLabels } from '../../words/index.ts';
import { keepName, keptName } from '../choices/kept-name.ts';

interface TakeUponProps {
  /** What it is about, for readers of the page's text. */
  readonly about: string;
  /** Settles with whether it was taken; what was typed stays where it was not. */
  readonly onTake: (by: { readonly name: string; readonly reason: string }) => Promise<boolean>;
}

/** Somebody takes a line upon themselves: by name and with a reason, which both stand on the sheet. */
export function TakeUpon({ about, onTake }: TakeUponProps): ReactNode {
  const id = useId();
  const [name, setName] = useState(keptName);
  const [reason, setReason] = useState('');
  const take = (event: FormEvent): void => {
    event.preventDefault();
    keepName(name.trim());
    void onTake({ name: name.trim(), reason: reason.trim() });
  };
  return (
    <details className="strike-take">
      <summary>
        {strikeLabels.takeUpon}
        <span className="unseen">: {about}</span>
      </summary>
      <form onSubmit={take}>
        <p>{strikeLabels.takeUponHelp}</p>
        <label htmlFor={`${id}-name`}>{strikeLabels.yourName}</label>
        <input
          id={`${id}-name`}
          value={name}
          maxLength={120}
          autoComplete="name"
          onChange={(event) => setName(event.target.value)}
        />
        <label htmlFor={`${id}-reason`}>{strikeLabels.reason}</label>
        <input
          id={`${id}-reason`}
          value={reason}
          maxLength={1000}
          onChange={(event) => setReason(event.target.value)}
        />
        <button type="submit" className="press" disabled={name.trim() === '' || reason.trim() === ''}>
          {strikeLabels.takeUpon}
        </button>
      </form>
    </details>
  );
}
