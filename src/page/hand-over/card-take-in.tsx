import { type ReactNode, useId, useState } from 'react';
import type { CardCheck, CardFolder, Station } from '../../contract/index.ts';
import { handOverLabels as labels } from '../../words/index.ts';
import { takeInCard } from '../link/index.ts';
import { ProgressLine } from './progress-line.tsx';

interface TakeInProps {
  readonly card: CardCheck;
  readonly cameras: Station['cameras'];
  readonly known: readonly CardFolder[];
  readonly busy: boolean;
  readonly ask: (call: () => Promise<unknown>) => void;
}

/** What is missing is copied in, as if a camera had sent it. The card stays as it is. */
export function CardTakeIn({ card, cameras, known, busy, ask }: TakeInProps): ReactNode {
  const id = useId();
  const [chosen, setChosen] = useState<string | null>(null);
  const { takingIn, counts, state } = card;
  if (takingIn !== null) return <TakingIn takingIn={takingIn} />;
  if (state !== 'done' || counts.missing === 0) return null;
  // The command tells how many, not which.
  if (card.byCommand) return <p>{labels.takeInAfterCheck}</p>;
  const active = cameras.filter(({ ended }) => !ended);
  const watchedFor = known.find(({ folder }) => folder === card.folder)?.camera;
  const camera = chosen ?? watchedFor ?? active[0]?.name ?? null;
  if (camera === null) return null;
  return (
    <form
      className="hand-take-in"
      onSubmit={(event) => {
        event.preventDefault();
        ask(() => takeInCard(camera));
      }}
    >
      <button type="submit" className="press" aria-disabled={busy}>
        {labels.takeIn(counts.missing)}
      </button>
      <label htmlFor={id}>{labels.asCamera}</label>
      <select id={id} value={camera} onChange={({ target }) => setChosen(target.value)}>
        {active.map(({ name }) => (
          <option key={name} value={name}>
            {name}
          </option>
        ))}
      </select>
    </form>
  );
}

function TakingIn({ takingIn }: { readonly takingIn: NonNullable<CardCheck['takingIn']> }): ReactNode {
  const { taken, files, takenBytes, bytes, toGoMs, state, left } = takingIn;
  return (
    <>
      <ProgressLine
        name={labels.takeIn(files)}
        done={takenBytes}
        of={bytes}
        words={labels.taking(taken, files)}
        toGoMs={toGoMs}
      />
      <p role="status">{labels.taken[state]}</p>
      {left.length === 0 ? null : (
        <>
          <p>{labels.notTaken(left.length)}</p>
          <ul className="hand-files">
            {left.map((path) => (
              <li key={path}>{path}</li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}
