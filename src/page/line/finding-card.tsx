import type { ReactNode } from 'react';
import type { LineFinding } from '../../contract/index.ts';
import { lineLabels, linePlaces, sentence, surePhrases, wayStateNames } from '../../words/index.ts';
import { PlainWords } from '../plain-words.tsx';
import { VerdictShape } from '../set/verdict-shape.tsx';
import { CommandLines } from './command-lines.tsx';
import { shapeOf } from './way-drawing.tsx';

/** One thing that is wrong: what, how sure, how that is known, and what mends it, the surest first. */
export function FindingCard({ finding }: { readonly finding: LineFinding }): ReactNode {
  const { weight, cause, sure, evidence, cures } = finding;
  const state = weight === 'note' ? null : weight;
  return (
    <li className="line-finding" data-weight={weight}>
      <p className="line-cause">
        {state === null ? null : (
          <span className="way-state">
            <VerdictShape judgement={shapeOf[state]} />
            {wayStateNames[state]}
          </span>
        )}
        <strong>
          <PlainWords text={sentence(cause)} />
        </strong>
      </p>
      {cures.length === 0 ? null : (
        <ul className="line-cures">
          {cures.map(({ finding: cure, commands, at }) => (
            <li key={`${cure.code} ${commands.join()}`}>
              <span className="line-where">{linePlaces[at]}</span>
              <div>
                <p>
                  <PlainWords text={sentence(cure)} />
                </p>
                {commands.length === 0 ? null : <p className="line-soft">{lineLabels.terminal}</p>}
                <CommandLines commands={commands} name={sentence(cure)} />
              </div>
            </li>
          ))}
        </ul>
      )}
      {evidence.length === 0 ? null : (
        <details>
          <summary>
            {surePhrases[sure]} {lineLabels.evidence}
          </summary>
          <ul>
            {evidence.map((seen) => (
              <li key={JSON.stringify(seen)}>
                <PlainWords text={sentence(seen)} />
              </li>
            ))}
          </ul>
        </details>
      )}
    </li>
  );
}
