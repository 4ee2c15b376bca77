import type { ReactNode } from 'react';
import { agreementLabels, remarkLabels } from '../../words/index.ts';
import type { Letter } from '../remarks/letters.ts';
import type { OutboxOfPage } from '../remarks/use-outbox.ts';
import '../style/remarks.css';

interface LeftLettersProps {
  readonly outbox: Pick<OutboxOfPage, 'letters' | 'throwAway'>;
}

/** What the station does not have though the link has ended: whoever wrote it must not believe that it was read. */
export function LeftLetters({ outbox }: LeftLettersProps): ReactNode {
  const left = outbox.letters.filter(({ sent }) => !sent);
  if (left.length === 0) return null;
  return (
    <section className="stray" aria-label={remarkLabels.unsent}>
      <h2>{remarkLabels.unsent}</h2>
      <p>{remarkLabels.lostLink}</p>
      <ul>
        {left.map(({ letter }) => (
          <li key={letter.body.id} className="remark">
            <p className="remark-text">{wordsOf(letter)}</p>
            <p className="say-acts">
              <button type="button" onClick={() => outbox.throwAway(letter.body.id)}>
                {remarkLabels.throwAway}
              </button>
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

function wordsOf({ body }: Letter): string {
  return 'text' in body ? body.text : agreementLabels.agree;
}
