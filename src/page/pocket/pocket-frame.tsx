import { type Dispatch, type ReactNode, useLayoutEffect, useRef, useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import { frameSentence, placePhrase, pocketLabels, soundLabels, standingNames } from '../../words/index.ts';
import { clockTime } from '../set/clock.ts';
import { usePresentation } from '../set/use-presentation.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';
import { worstJudgement } from '../set/worst-judgement.ts';
import { momentOf, type PageAction, type PageState, verdictsWithSettled } from '../state/index.ts';
import type { SizeCssPx } from '../viewport/index.ts';
import { PocketLarge } from './pocket-large.tsx';
import { PocketPicture } from './pocket-picture.tsx';
import { useSwipe } from './use-swipe.ts';

interface PocketFrameProps {
  readonly frame: Frame;
  readonly state: PageState;
  readonly count: number;
  readonly dispatch: Dispatch<PageAction>;
}

/** One frame: its picture, its worst verdict as one word with its shape, and the sentence. */
export function PocketFrame({ frame: wanted, state, count, dispatch }: PocketFrameProps): ReactNode {
  const area = useRef<HTMLDivElement>(null);
  const [free, setFree] = useState<SizeCssPx | null>(null);
  const [isLarge, setLarge] = useState(false);
  useLayoutEffect(() => watchSize(area.current, setFree), []);
  const presentation = usePresentation(wanted, state.frames, free);
  const step = (by: -1 | 1): void => dispatch({ type: 'step', by });
  useSwipe(area, step);
  const frame = presentation?.frame ?? wanted;
  const place = state.frames.order.indexOf(frame.id) + 1;
  const judgement = worstJudgement(frame);
  const reason = frame.picture.state === 'cannot' ? frame.picture.reason : null;
  return (
    <div className="pocket-frame">
      <div className="pocket-picture" ref={area}>
        <PocketPicture presentation={presentation} free={free} />
      </div>
      <div className="pocket-steps">
        <button
          type="button"
          aria-label={pocketLabels.earlier}
          disabled={place <= 1}
          onClick={() => step(-1)}
        >
          ‹
        </button>
        <p>
          <strong>{frame.name}</strong> <span>{clockTime(momentOf(frame))},</span>{' '}
          <span>{placePhrase(place, count)}</span>
        </p>
        {state.chosen === null ? null : (
          <button type="button" className="pocket-newest" onClick={() => dispatch({ type: 'to-newest' })}>
            {pocketLabels.newest}
          </button>
        )}
        <button
          type="button"
          aria-label={pocketLabels.later}
          disabled={place >= count}
          onClick={() => step(1)}
        >
          ›
        </button>
      </div>
      <div className="pocket-verdict paper" data-judgement={judgement}>
        <button type="button" className="pocket-word" onClick={() => setLarge(true)}>
          <VerdictShape judgement={judgement} />
          <span data-testid="pocket-word">{standingNames[judgement]}</span>
          <span className="unseen">{soundLabels.large}</span>
        </button>
        <p className="pocket-sentence" aria-live="polite">
          {frameSentence(verdictsWithSettled(frame), reason)}
        </p>
      </div>
      {isLarge ? <PocketLarge frame={frame} judgement={judgement} onClose={() => setLarge(false)} /> : null}
    </div>
  );
}

function watchSize(element: HTMLElement | null, tell: (size: SizeCssPx) => void): () => void {
  if (element === null) return () => undefined;
  const observer = new ResizeObserver(([entry]) => {
    if (entry === undefined) return;
    tell({ widthCssPx: entry.contentRect.width, heightCssPx: entry.contentRect.height });
  });
  observer.observe(element);
  return () => observer.disconnect();
}
