import { type ReactNode, useEffect, useRef } from 'react';
import type { Frame } from '../../contract/index.ts';
import { soundLabels, standingNames } from '../../words/index.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';
import type { Standing } from '../set/worst-judgement.ts';

interface PocketLargeProps {
  readonly frame: Frame;
  readonly judgement: Standing;
  readonly onClose: () => void;
}

/** The word and its shape as large as the phone, to be read from across the room. A touch anywhere goes back. */
export function PocketLarge({ frame, judgement, onClose }: PocketLargeProps): ReactNode {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} className="pocket-large" data-judgement={judgement} onClose={onClose}>
      <button type="button" aria-label={soundLabels.small} onClick={onClose}>
        <VerdictShape judgement={judgement} />
        <span className="pocket-large-word" data-testid="pocket-large-word" aria-live="polite">
          {standingNames[judgement]}
        </span>
        <span className="pocket-large-name">{frame.name}</span>
      </button>
    </dialog>
  );
}
