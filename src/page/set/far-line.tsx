import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { framesPhrase, soundLabels } from '../../words/index.ts';
import { onTheWay, type PageState, shotStops } from '../state/index.ts';

interface FarLineProps {
  readonly state: PageState;
  readonly frame: Frame | null;
  readonly frames: readonly Frame[];
}

/** For the far view: which shot, how many frames it has, and the number of the frame that is shown. */
export function FarLine({ state, frame, frames }: FarLineProps): ReactNode {
  const job = state.station?.job ?? null;
  const stop = shotStops(job, frames).find(({ current }) => current);
  const name = stop?.name ?? job?.title ?? '';
  return (
    <p className="far-line paper" data-on-way={onTheWay(state) !== null}>
      <strong>{name}</strong>
      <span>{stop === undefined ? '' : framesPhrase(stop.frames)}</span>
      <span className="far-number">
        <span className="unseen">{soundLabels.farNumber}</span> {frame === null ? '–' : numberOf(frame)}
      </span>
    </p>
  );
}

/** The camera's own number as it stands on its display; else the end of the file's name. */
function numberOf({ counter, name }: Frame): string {
  if (counter !== null) return String(counter).padStart(4, '0');
  return name.replace(/\.[^.]*$/, '').slice(-6);
}
