import {
  type KeyboardEvent,
  type PointerEvent,
  type ReactNode,
  useLayoutEffect,
  useRef,
  useState,
} from 'react';
import { lookLabels } from '../../../words/index.ts';
import { arrowStep } from '../../viewport/arrow-step.ts';
import {
  begun,
  type Drawing,
  type DrawnLine,
  ended,
  givenUp,
  lineOf,
  moved,
  undrawn,
} from './drawing-lines.ts';
import { useFocusMeanwhile } from './use-focus-meanwhile.ts';

interface LineDrawerProps {
  readonly onLines: (lines: readonly [DrawnLine, DrawnLine]) => void;
  readonly onLeave: () => void;
}

/** Lies over the picture while two parallels are drawn along its edges: by a pointer, or by arrows and Enter. */
export function LineDrawer({ onLines, onLeave }: LineDrawerProps): ReactNode {
  const [drawing, setDrawing] = useState(undrawn);
  const [byKeys, setByKeys] = useState(true);
  const field = useRef<HTMLButtonElement>(null);
  const cross = useRef<HTMLSpanElement>(null);
  useFocusMeanwhile(field);
  useLayoutEffect(() => {
    if (cross.current === null) return;
    cross.current.style.left = `${drawing.at[0] * 100}%`;
    cross.current.style.top = `${drawing.at[1] * 100}%`;
  });
  const end = (from: Drawing, by: 'keys' | 'pointer'): void => {
    const done = ended(from, by);
    setDrawing(done.drawing);
    if (done.lines !== null) onLines(done.lines);
  };
  const under = (event: PointerEvent): Drawing => {
    const rect = event.currentTarget.getBoundingClientRect();
    return moved(drawing, [
      (event.clientX - rect.left) / rect.width,
      (event.clientY - rect.top) / rect.height,
    ]);
  };
  const keys = (event: KeyboardEvent): void => {
    if (event.key === 'Escape') {
      const left = givenUp(drawing);
      if (left === null) onLeave();
      else setDrawing(left);
      return;
    }
    const [right, down] = arrowStep(event);
    if (right === 0 && down === 0) return;
    event.preventDefault();
    setByKeys(true);
    const [x, y] = drawing.at;
    setDrawing(moved(drawing, [x + right, y + down]));
  };
  return (
    <button
      ref={field}
      type="button"
      className="line-field"
      aria-label={lookLabels.drawingLines}
      onKeyDown={keys}
      onClick={(event) => {
        // Enter has no place of its own: an end lies where the cross stands.
        if (event.detail !== 0) return;
        setByKeys(true);
        if (drawing.start === null) setDrawing(begun(drawing));
        else end(drawing, 'keys');
      }}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        setByKeys(false);
        setDrawing(begun(under(event)));
      }}
      onPointerMove={(event) => {
        if (event.currentTarget.hasPointerCapture(event.pointerId)) setDrawing(under(event));
      }}
      onPointerUp={(event) => end(under(event), 'pointer')}
      onPointerCancel={() => setDrawing({ ...drawing, start: null, tooShort: false })}
    >
      <svg viewBox="0 0 1 1" preserveAspectRatio="none" aria-hidden="true">
        {[drawing.first, lineOf(drawing)].map((line, index) =>
          line === null ? null : (
            // biome-ignore lint/suspicious/noArrayIndexKey: the first and the second line
            <line key={index} x1={line[0]} y1={line[1]} x2={line[2]} y2={line[3]} />
          ),
        )}
      </svg>
      <span ref={cross} className="neutral-cross" hidden={!byKeys} />
      <span className={drawing.tooShort ? 'line-said' : 'unseen'} role="status">
        {statusWords(drawing)}
      </span>
    </button>
  );
}

function statusWords({ first, start, tooShort }: Drawing): string {
  if (tooShort) return start === null ? lookLabels.lineTooShort : lookLabels.lineTooShortYet;
  if (first === null) return start === null ? '' : lookLabels.firstLineBegun;
  return start === null ? lookLabels.firstLineDone : lookLabels.secondLineBegun;
}
