import { type ReactNode, useCallback, useEffect, useState } from 'react';
import type { CardCheck, CardDesk, Station } from '../../contract/index.ts';
import { handOverLabels as labels } from '../../words/index.ts';
import { checkCard, fetchCards, stopCard } from '../link/index.ts';
import { CardOutcome } from './card-outcome.tsx';
import { CardTakeIn } from './card-take-in.tsx';
import { ProgressLine } from './progress-line.tsx';
import { useAsked } from './use-asked.ts';

interface CardPartProps {
  readonly card: CardCheck | null;
  readonly cameras: Station['cameras'];
}

/** A memory card held against what is here: may it be wiped, and what is missing. */
export function CardPart({ card, cameras }: CardPartProps): ReactNode {
  const { desk, look } = useCards(card?.state ?? '');
  const { busy, refusal, ask } = useAsked();
  if (desk === 'elsewhere') return <p>{labels.cardHere}</p>;
  const isBusy = card?.state === 'checking' || card?.takingIn?.state === 'running';
  const folders = desk === null ? [] : desk.folders;
  return (
    <>
      {desk !== null && folders.length === 0 ? <p>{labels.noCards}</p> : null}
      {folders.length === 0 ? null : (
        <>
          <h3>{labels.cardFolders}</h3>
          <ul className="hand-cards">
            {folders.map(({ folder, why, camera }) => (
              <li key={folder}>
                <span>
                  <strong>{folder}</strong>{' '}
                  <small>{camera === null ? labels.why[why] : `${labels.why[why]} ${camera}`}</small>
                </span>
                <button
                  type="button"
                  className="press"
                  aria-disabled={busy || isBusy}
                  onClick={isBusy ? undefined : () => ask(() => checkCard(folder))}
                >
                  {card?.folder === folder && card.state === 'done' ? labels.checkAgain : labels.check}
                  <span className="unseen">{labels.about(folder)}</span>
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
      <p className="hand-acts">
        <button type="button" className="press" onClick={look}>
          {labels.look}
        </button>
        {isBusy ? (
          <button type="button" className="press" aria-disabled={busy} onClick={() => ask(stopCard)}>
            {labels.stop}
          </button>
        ) : null}
      </p>
      <p role="status" className="hand-refusal" hidden={refusal === ''}>
        {refusal}
      </p>
      {card === null ? null : (
        <section className="hand-card" aria-label={card.folder}>
          {card.state === 'checking' ? (
            <ProgressLine
              name={labels.card}
              done={card.doneBytes}
              of={card.bytes}
              words={card.files === 0 ? labels.checkBegins : labels.checking(card.doneFiles, card.files)}
              toGoMs={card.toGoMs}
            />
          ) : (
            <CardOutcome card={card} />
          )}
          <CardTakeIn card={card} cameras={cameras} known={folders} ask={ask} busy={busy} />
        </section>
      )}
    </>
  );
}

/** Folders are looked for while the page is seen: a card is put in without a word. */
const lookEveryMs = 4_000;

function useCards(state: string): {
  readonly desk: CardDesk | 'elsewhere' | null;
  readonly look: () => void;
} {
  const [desk, setDesk] = useState<CardDesk | 'elsewhere' | null>(null);
  const [asked, setAsked] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: asking once more, and how the check stands, are the wish itself
  useEffect(() => {
    const ended = new AbortController();
    const read = (): void => {
      if (document.visibilityState === 'hidden') return;
      fetchCards(ended.signal).then(
        (found) => setDesk(found ?? 'elsewhere'),
        () => {},
      );
    };
    read();
    const timer = setInterval(read, lookEveryMs);
    return () => {
      clearInterval(timer);
      ended.abort();
    };
  }, [asked, state]);
  return { desk, look: useCallback(() => setAsked((count) => count + 1), []) };
}
