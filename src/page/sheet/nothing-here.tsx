import type { ReactNode } from 'react';
import { contactLabels } from '../../words/index.ts';

/** An empty sheet says what to do first; one that asks for too much says so. */
export function NothingHere({ asked }: { readonly asked: boolean }): ReactNode {
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
