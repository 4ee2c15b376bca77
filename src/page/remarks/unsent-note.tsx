import type { ReactNode } from 'react';
import { remarkLabels } from '../../words/index.ts';
import type { Outgoing } from './outbox.ts';
import type { OutboxOfPage } from './use-outbox.ts';

interface UnsentNoteProps {
  readonly outgoing: Outgoing;
  readonly outbox: Pick<OutboxOfPage, 'tryAgain' | 'throwAway'>;
}

/** Where something stands that the station does not have yet, and what can be done where it does not take it. */
export function UnsentNote({ outgoing, outbox }: UnsentNoteProps): ReactNode {
  const { letter, refusal, sent } = outgoing;
  if (sent) return null;
  if (refusal === null) return <p className="unsent">{remarkLabels.waiting}</p>;
  return (
    <div className="unsent">
      <p role="alert">{refusal}</p>
      <p className="say-acts">
        <button type="button" onClick={() => outbox.tryAgain(letter.body.id)}>
          {remarkLabels.tryAgain}
        </button>
        <button type="button" onClick={() => outbox.throwAway(letter.body.id)}>
          {remarkLabels.throwAway}
        </button>
      </p>
    </div>
  );
}
