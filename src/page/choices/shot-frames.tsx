import type { Dispatch, ReactNode } from 'react';
import type { Frame, Shot } from '../../contract/index.ts';
import { jobLabels, markNames, questionNames } from '../../words/index.ts';
import { clockTime } from '../set/clock.ts';
import { SmallPicture } from '../set/small-picture.tsx';
import { momentOf, openQuestions, type PageAction } from '../state/index.ts';

interface ShotFramesProps {
  readonly shot: Shot;
  readonly frames: readonly Frame[];
  readonly dispatch: Dispatch<PageAction>;
}

/** A card shows so many: the newest, and every one that is marked comes before them. */
const shownMax = 48;

/** The frames of a shot, marked ones first, then the newest; a click opens a frame's own card. */
export function ShotFrames({ shot, frames, dispatch }: ShotFramesProps): ReactNode {
  const order = [...frames].sort((a, b) => rank(a) - rank(b) || momentOf(b) - momentOf(a));
  const left = order.length - shownMax;
  const openCard = (id: string): void => {
    dispatch({ type: 'choose', id });
    dispatch({ type: 'card', card: 'frame' });
  };
  if (frames.length === 0) return <p className="aside">{jobLabels.noFramesYet}</p>;
  return (
    <>
      <ul className="shot-frames">
        {order.slice(0, shownMax).map((frame) => {
          const open = openQuestions(shot, frame).map((question) => questionNames[question]);
          return (
            <li key={frame.id}>
              <button type="button" onClick={() => openCard(frame.id)}>
                <SmallPicture frame={frame} />
                <span>{frame.name}</span>
                <span>{clockTime(momentOf(frame))}</span>
                {frame.mark === 'none' ? null : <strong>{markNames[frame.mark]}</strong>}
                {shot.reference === frame.id ? <em>{jobLabels.reference}</em> : null}
                {frame.mark === 'hero' && open.length > 0 ? (
                  <span>{jobLabels.stillOpen(open.join(', '))}</span>
                ) : null}
              </button>
            </li>
          );
        })}
      </ul>
      {left > 0 ? <p className="aside">{jobLabels.andMore(left)}</p> : null}
    </>
  );
}

const ranks: Readonly<Record<Frame['mark'], number>> = { hero: 0, select: 1, alternate: 2, none: 3, out: 4 };

function rank({ mark }: Frame): number {
  return ranks[mark];
}
