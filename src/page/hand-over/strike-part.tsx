import type { ReactNode } from 'react';
import { handOverLabels as labels, sentence, strikeLabels } from '../../words/index.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';
import { addressOf } from '../state/index.ts';
import type { StrikeSeen } from '../strike/use-strike.ts';

/** Lines that are shown here; the sheet has them all. */
const shownMax = 3;

/** May the set come down: the answer, what is worst, and the way to the sheet. */
export function StrikePart({ seen: { check, failed } }: { readonly seen: StrikeSeen }): ReactNode {
  if (check === null) return <p>{failed === '' ? strikeLabels.loading : labels.noOpenJob}</p>;
  const { ready, open, job } = check;
  return (
    <>
      <p className="hand-answer">
        <VerdictShape judgement={ready ? 'good' : open[0]?.cost === 'reshoot' ? 'bad' : 'doubt'} />
        {ready ? strikeLabels.ready : strikeLabels.notReady(open.length)}
      </p>
      <ul className="hand-files">
        {open.slice(0, shownMax).map(({ key, finding }) => (
          <li key={key}>{sentence(finding)}</li>
        ))}
      </ul>
      {open.length > shownMax ? <p className="hand-soft">{labels.more(open.length - shownMax)}</p> : null}
      <p>
        <a href={addressOf({ page: 'strike', job })}>
          {labels.toStrike} ({job})
        </a>
      </p>
    </>
  );
}
