import type { ReactNode } from 'react';
import type { StrikeShot } from '../../contract/index.ts';
import { agreementNames, judgementNames, markNames, questionNames, strikeLabels } from '../../words/index.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';

/** Every shot with what is chosen of it, and how that was judged. */
export function StrikeShots({ shots }: { readonly shots: readonly StrikeShot[] }): ReactNode {
  if (shots.length === 0) return null;
  return (
    <section>
      <h2>{strikeLabels.shots}</h2>
      <ol className="strike-shots">
        {shots.map((shot, index) => (
          <li key={shot.id}>
            <span className="call-number">{index + 1}</span>
            <div>
              <h3>{shot.name}</h3>
              <p className="call-facts">
                <span>{wantedOf(shot)}</span>
                {shot.agreement === null ? null : (
                  <span>
                    {strikeLabels.client}: {agreementNames[shot.agreement]}
                  </span>
                )}
                <strong>{shot.open === 0 ? strikeLabels.inOrder : strikeLabels.openLines(shot.open)}</strong>
              </p>
              <ul className="strike-chosen">
                {shot.chosen.map((frame) => (
                  <ChosenFrame key={frame.id} frame={frame} />
                ))}
              </ul>
            </div>
          </li>
        ))}
      </ol>
    </section>
  );
}

function wantedOf({ chosen, heroesWanted, selectsWanted }: StrikeShot): string {
  const there = (mark: 'hero' | 'select'): number => chosen.filter((frame) => frame.mark === mark).length;
  return [
    strikeLabels.heroes(there('hero'), heroesWanted),
    ...(selectsWanted === 0 ? [] : [strikeLabels.selects(there('select'), selectsWanted)]),
  ].join(', ');
}

function ChosenFrame({ frame }: { readonly frame: StrikeShot['chosen'][number] }): ReactNode {
  return (
    <li>
      <span className="strike-name">
        {frame.name} <small>{markNames[frame.mark]}</small>
      </span>
      <ul className="strike-verdicts">
        {frame.verdicts.map(({ question, judgement, accepted }) => (
          <li key={question}>
            <VerdictShape judgement={accepted === null ? judgement : 'accepted'} />
            <span>
              {questionNames[question]}: {judgementNames[judgement]}
              {accepted === null ? '' : `, ${strikeLabels.acceptedShort(accepted.name)}`}
            </span>
          </li>
        ))}
      </ul>
    </li>
  );
}
