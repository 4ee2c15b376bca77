import { type KeyboardEvent, type ReactNode, useEffect, useLayoutEffect, useRef, useState } from 'react';
import { lookLabels } from '../../../words/index.ts';
import { arrowStep } from '../../viewport/arrow-step.ts';

interface NeutralPickerProps {
  /** Shares of the picture's box. */
  readonly onPick: (x: number, y: number) => void;
  readonly onLeave: () => void;
}

/** Lies over the picture while something neutral is pointed at. */
export function NeutralPicker({ onPick, onLeave }: NeutralPickerProps): ReactNode {
  const field = useRef<HTMLButtonElement>(null);
  const cross = useRef<HTMLSpanElement>(null);
  const [at, setAt] = useState({ x: 0.5, y: 0.5 });
  useEffect(() => field.current?.focus(), []);
  useLayoutEffect(() => {
    if (cross.current === null) return;
    cross.current.style.left = `${at.x * 100}%`;
    cross.current.style.top = `${at.y * 100}%`;
  }, [at]);
  const keys = (event: KeyboardEvent): void => {
    if (event.key === 'Escape') {
      onLeave();
      return;
    }
    const [right, down] = arrowStep(event);
    if (right === 0 && down === 0) return;
    event.preventDefault();
    const held = (value: number): number => Math.min(1, Math.max(0, value));
    setAt(({ x, y }) => ({ x: held(x + right), y: held(y + down) }));
  };
  return (
    <button
      ref={field}
      type="button"
      className="neutral-field"
      aria-label={lookLabels.picking}
      onKeyDown={keys}
      onClick={(event) => {
        // Enter has no place of its own: then it is where the cross stands.
        if (event.detail === 0) {
          onPick(at.x, at.y);
          return;
        }
        const rect = event.currentTarget.getBoundingClientRect();
        onPick((event.clientX - rect.left) / rect.width, (event.clientY - rect.top) / rect.height);
      }}
    >
      <span ref={cross} className="neutral-cross" />
    </button>
  );
}
