import type { ReactNode } from 'react';
import type { CardCheck } from '../../contract/index.ts';
import { handOverLabels as labels, sentence } from '../../words/index.ts';
import { dayAndTime } from '../set/clock.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';
import { More } from './delivered-files.tsx';

const states = ['safe', 'once', 'missing', 'unread'] as const;

/** May the card be wiped; if not, which files stand against it. */
export function CardOutcome({ card }: { readonly card: CardCheck }): ReactNode {
  const { state, mayBeWiped, findings, counts, files, bytes, notSafe, copies, passedOver, journalled } = card;
  const at = dayAndTime(Date.parse(card.endedAt ?? card.startedAt));
  return (
    <>
      <h3>{card.folder}</h3>
      <p className="hand-answer" role="status">
        <VerdictShape judgement={mayBeWiped ? 'good' : counts.missing > 0 ? 'bad' : 'doubt'} />
        {mayBeWiped ? labels.wipe : labels.keep}
      </p>
      {state === 'stopped' ? <p>{labels.stopped}</p> : null}
      {mayBeWiped ? <p>{labels.wipeBecause(files, bytes, at)}</p> : null}
      {findings.map((finding) => (
        <p
          key={`${finding.code} ${String(finding.args.folder)}`}
          className={mayBeWiped ? 'hand-soft' : undefined}
        >
          {sentence(finding)}
        </p>
      ))}
      {state === 'done' && !mayBeWiped ? <p>{labels.checkedAt(at)}</p> : null}
      {state !== 'done' ? null : (
        <ul className="hand-counts">
          {states.map((each) => (
            <li key={each}>
              <strong>{counts[each]}</strong> {labels.counts[each]}
            </li>
          ))}
        </ul>
      )}
      {copies.map(({ folder, files: count }) => (
        <p key={folder} className="hand-soft">
          {labels.soundCopies(count, folder)}
        </p>
      ))}
      {card.byCommand ? <p className="hand-soft">{labels.byCommand}</p> : null}
      {passedOver === 0 ? null : <p className="hand-soft">{labels.passedOver(passedOver)}</p>}
      {state === 'done' && !journalled ? <p>{labels.notNoted}</p> : null}
      {notSafe.length === 0 ? null : (
        <details className="hand-details">
          <summary>{labels.notSafe}</summary>
          <ul className="hand-files">
            {notSafe.map(({ path, state: each, sizeBytes, findings: said }) => (
              <li key={path}>
                <strong>{path}</strong> {labels.size(sizeBytes)}, {labels.counts[each]}
                {said.map((finding) => (
                  <p key={`${finding.code} ${String(finding.args.folder)}`}>{sentence(finding)}</p>
                ))}
              </li>
            ))}
          </ul>
          <More count={counts.once + counts.missing + counts.unread - notSafe.length} />
        </details>
      )}
    </>
  );
}
