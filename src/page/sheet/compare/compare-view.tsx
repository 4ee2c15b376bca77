import { type ReactNode, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { Frame } from '../../../contract/index.ts';
import type { Mark, Question } from '../../../facts/index.ts';
import { contactLabels, questionNames } from '../../../words/index.ts';
import { laidQuestions } from '../../readings/laid.ts';
import type { PageState } from '../../state/index.ts';
import type { ZoomStep } from '../../viewport/index.ts';
import { useBackCloses } from '../use-back-closes.ts';
import { ComparedPicture } from './compared-picture.tsx';
import { JoinedZooms } from './joined-zooms.ts';
import { useCompareKeys } from './use-compare-keys.ts';

interface CompareViewProps {
  readonly state: PageState;
  /** One to four. */
  readonly frames: readonly Frame[];
  /** Why the last mark was not taken; empty where it was. */
  readonly trouble: string;
  readonly onMark: (mark: Mark, frame: Frame) => void;
  readonly onSet: (frame: string) => void;
  /** Of one alone: to its neighbour on the sheet; null where several are compared. */
  readonly onBeside: ((by: -1 | 1) => void) | null;
  readonly onClose: () => void;
}

/** One to four pictures side by side, looked at alike: one zoom, and the same map over each. */
export function CompareView({
  state,
  frames,
  trouble,
  onMark,
  onSet,
  onBeside,
  onClose,
}: CompareViewProps): ReactNode {
  useBackCloses(onClose);
  const joined = useMemo(() => new JoinedZooms(), []);
  const [active, setActive] = useState(0);
  const [laid, setLaid] = useState<Question | null>(null);
  const take = useRef<(step: ZoomStep) => void>(() => undefined);
  const onTake = useCallback((given: (step: ZoomStep) => void) => {
    take.current = given;
  }, []);
  const dialog = useRef<HTMLDialogElement>(null);
  // The browser's own dialog keeps the focus inside and gives it back to the frame it came from.
  useEffect(() => dialog.current?.showModal(), []);
  const at = Math.min(active, frames.length - 1);
  useCompareKeys(dialog, state.letterKeys, {
    mark: (mark) => {
      const frame = frames[at];
      if (frame !== undefined) onMark(mark, frame);
    },
    zoom: (step) => take.current(step),
    go: (index) => {
      if (index < frames.length) setActive(index);
    },
    beside: (by) => (onBeside === null ? setActive((at + by + frames.length) % frames.length) : onBeside(by)),
    lay: () => setLaid(nextLaid(laid)),
  });

  return (
    <dialog
      ref={dialog}
      className="compare"
      data-surround={state.dimSurround ? 'dim' : 'grey'}
      aria-label={frames.length > 1 ? contactLabels.compare : contactLabels.look}
      onClose={onClose}
    >
      <header className="compare-head paper">
        <button type="button" className="press" onClick={() => dialog.current?.close()}>
          ← {contactLabels.close}
        </button>
        {onBeside === null ? null : (
          <>
            <button type="button" className="press" onClick={() => onBeside(-1)}>
              {contactLabels.before}
            </button>
            <button type="button" className="press" onClick={() => onBeside(1)}>
              {contactLabels.next}
            </button>
          </>
        )}
        <fieldset className="compare-laid">
          <legend>{contactLabels.laid}</legend>
          {[null, ...laidQuestions].map((question) => (
            <button
              key={question ?? ''}
              type="button"
              className="press"
              aria-pressed={laid === question}
              onClick={() => setLaid(question)}
            >
              {question === null ? contactLabels.laidNothing : questionNames[question]}
            </button>
          ))}
        </fieldset>
        <p className="compare-said" role="status">
          {trouble}
        </p>
      </header>
      <div className="compare-field" data-count={frames.length}>
        {frames.map((frame, index) => (
          <ComparedPicture
            key={frame.id}
            state={state}
            frame={frame}
            at={index + 1}
            joined={joined}
            laid={laid}
            active={index === at}
            onActive={() => setActive(index)}
            onMark={(mark) => onMark(mark, frame)}
            onSet={() => onSet(frame.id)}
            onTake={onTake}
          />
        ))}
      </div>
    </dialog>
  );
}

function nextLaid(laid: Question | null): Question | null {
  const all = [null, ...laidQuestions];
  return all[(all.indexOf(laid) + 1) % all.length] ?? null;
}
