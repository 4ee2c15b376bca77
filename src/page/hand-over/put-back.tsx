import { type ReactNode, useState } from 'react';
import type { PutBackAnswer } from '../../contract/index.ts';
import { handOverLabels as labels, sentence } from '../../words/index.ts';
import { putOriginalsBack } from '../link/index.ts';
import { useAsked } from './use-asked.ts';

/** Puts bad originals back from a second place, and says what became of each. What was said stays until the page is left. */
export function PutBack({ isWanted }: { readonly isWanted: boolean }): ReactNode {
  const { busy, refusal, ask } = useAsked();
  const [answer, setAnswer] = useState<PutBackAnswer | null>(null);
  if (!isWanted && answer === null && !busy) return null;
  const said = busy ? labels.puttingBack : refusal;
  const findings = answer?.originals.flatMap((each) => each.findings) ?? [];
  return (
    <div className="hand-put-back">
      {isWanted ? (
        <p className="hand-acts">
          <button
            type="button"
            className="press"
            aria-disabled={busy}
            onClick={() => ask(async () => setAnswer(await putOriginalsBack()))}
          >
            {labels.putBack}
          </button>
        </p>
      ) : null}
      <div role="status">
        {said === '' ? null : <p className={busy ? 'hand-soft' : 'hand-refusal'}>{said}</p>}
        {answer !== null && findings.length === 0 ? <p>{labels.nothingToPutBack}</p> : null}
        <ul className="hand-put-back-said">
          {findings.map((finding) => (
            <li key={sentence(finding)}>{sentence(finding)}</li>
          ))}
        </ul>
      </div>
    </div>
  );
}
