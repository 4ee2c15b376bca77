import { type ReactNode, useId, useState } from 'react';
import type { BagThere } from '../../contract/index.ts';
import { bagLabels as labels } from '../../words/index.ts';
import { checkBag } from '../link/index.ts';

interface BagCheckProps {
  readonly bags: readonly BagThere[];
  readonly busy: boolean;
  readonly ask: (call: () => Promise<unknown>) => void;
}

/** Packages that lie on the disks, and any other by its folder: each can be read again. */
export function BagCheck({ bags, busy, ask }: BagCheckProps): ReactNode {
  const id = useId();
  const [typed, setTyped] = useState('');
  return (
    <form
      className="hand-add"
      aria-label={labels.there}
      onSubmit={(event) => {
        event.preventDefault();
        ask(() => checkBag(typed.trim()));
      }}
    >
      <h3>{labels.there}</h3>
      {bags.length === 0 ? null : (
        <ul className="hand-cards">
          {bags.map(({ folder, state }) => (
            <li key={folder}>
              <span>
                <strong>{folder}</strong> <small>{labels.states[state]}</small>
              </span>
              {state === 'unfinished' ? null : (
                <button
                  type="button"
                  className="press"
                  disabled={busy}
                  onClick={() => ask(() => checkBag(folder))}
                >
                  {labels.check}
                  <span className="unseen">{labels.ofFolder(folder)}</span>
                </button>
              )}
            </li>
          ))}
        </ul>
      )}
      <p className="hand-field">
        <label htmlFor={id}>{labels.other}</label>
        <input
          id={id}
          type="text"
          autoComplete="off"
          spellCheck={false}
          value={typed}
          aria-describedby={`${id}-help`}
          onChange={({ target }) => setTyped(target.value)}
        />
        <small id={`${id}-help`}>{labels.otherHelp}</small>
      </p>
      <p className="hand-acts">
        <button type="submit" className="press" disabled={busy || typed.trim() === ''}>
          {labels.check}
          <span className="unseen">{labels.ofFolder(typed.trim())}</span>
        </button>
      </p>
    </form>
  );
}
