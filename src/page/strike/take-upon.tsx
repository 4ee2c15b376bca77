import type { ReactNode } from 'react';
import { strikeLabels } from '../../words/index.ts';
import { ByNameForm } from '../choices/by-name-form.tsx';

interface TakeUponProps {
  /** What it is about, for readers of the page's text. */
  readonly about: string;
  /** Settles with whether it was taken; what was typed stays where it was not. */
  readonly onTake: (by: { readonly name: string; readonly reason: string }) => Promise<boolean>;
}

const labels = { name: strikeLabels.yourName, reason: strikeLabels.reason, take: strikeLabels.takeUpon };

/** Somebody takes a line upon themselves: by name and with a reason, which both stand on the sheet. */
export function TakeUpon({ about, onTake }: TakeUponProps): ReactNode {
  return (
    <details className="strike-take">
      <summary>
        {strikeLabels.takeUpon}
        <span className="unseen">: {about}</span>
      </summary>
      <ByNameForm labels={labels} buttonClassName="press" onTake={(by) => void onTake(by)}>
        <p>{strikeLabels.takeUponHelp}</p>
      </ByNameForm>
    </details>
  );
}
