import type { ReactNode } from 'react';
import type { Judgement } from '../../facts/index.ts';
import { lineLabels, placeNames, type WayState, wayStateNames } from '../../words/index.ts';
import { PlainWords } from '../plain-words.tsx';
import { VerdictShape } from '../set/verdict-shape.tsx';
import type { WayPiece } from './way.ts';

/** A shape for each state: the same four as those of verdicts, beside its word. */
export const shapeOf: Readonly<Record<WayState, Judgement>> = {
  open: 'good',
  weak: 'doubt',
  shut: 'bad',
  unknown: 'unknown',
};

/** The way of a frame from camera to disk: what it passes, joined by a line that is broken where nothing passes. */
export function WayDrawing({ pieces }: { readonly pieces: readonly WayPiece[] }): ReactNode {
  return (
    <ol className="way" aria-label={lineLabels.way}>
      {pieces.map(({ place, state, lines }) => (
        <li key={place} data-state={state} data-place={place}>
          <h2>{placeNames[place]}</h2>
          <p className="way-state">
            <VerdictShape judgement={shapeOf[state]} />
            {wayStateNames[state]}
          </p>
          {lines.map((line) => (
            <p key={line}>
              <PlainWords text={line} />
            </p>
          ))}
        </li>
      ))}
    </ol>
  );
}
