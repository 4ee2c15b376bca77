import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { remarkLabels } from '../../words/index.ts';
import { UnsentNote } from '../remarks/unsent-note.tsx';
import type { OutboxOfPage } from '../remarks/use-outbox.ts';

interface StrayLettersProps {
  readonly frames: readonly Frame[];
  readonly outbox: OutboxOfPage;
}

/** What the station did not take, and what was written about pictures that are not on the page any more: nothing of it is lost. */
export function StrayLetters({ frames, outbox }: StrayLettersProps): ReactNode {
  const stray = outbox.letters.filter(
    ({ letter, sent, refusal }) =>
      !sent &&
      letter.kind !== 'agreement' &&
      (refusal !== null || !frames.some(({ id }) => id === letter.frame)),
  );
  if (stray.length === 0) return null;
  return (
    <section className="stray" aria-label={remarkLabels.unsent}>
      <h2>{remarkLabels.unsent}</h2>
      <ul>
        {stray.map((outgoing) => (
          <li key={outgoing.letter.body.id} className="remark">
            <p className="remark-text">{'text' in outgoing.letter.body ? outgoing.letter.body.text : ''}</p>
            <UnsentNote outgoing={outgoing} outbox={outbox} />
          </li>
        ))}
      </ul>
    </section>
  );
}
