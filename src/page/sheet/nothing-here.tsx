import type { ReactNode } from 'react';
import { contactLabels } from '../../words/index.ts';

interface NothingHereProps {
  readonly asked: boolean;
  /** The job that the address names and nobody made; null where there is one. */
  readonly unknown: string | null;
}

/** An empty sheet says what to do first; one that asks for too much says so. */
export function NothingHere({ asked, unknown }: NothingHereProps): ReactNode {
  if (unknown !== null) {
    return (
      <div className="sheet-nothing paper">
        <p>{contactLabels.noSuchJob(unknown)}</p>
        <p>{contactLabels.noSuchJobHelp}</p>
      </div>
    );
  }
  if (asked) {
    return (
      <div className="sheet-nothing paper">
        <p>{contactLabels.nothingAsked}</p>
      </div>
    );
  }
  return (
    <div className="sheet-nothing paper">
      <p>{contactLabels.nothingYet}</p>
      <ol>
        {contactLabels.nothingYetHelp.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ol>
    </div>
  );
}
