import { type KeyboardEvent, type ReactNode, useRef } from 'react';
import { lookLabels } from '../../../words/index.ts';
import { arrowOf } from '../../viewport/arrow-step.ts';

interface PanFieldProps {
  /** The picture goes by so much to the right and down, shares of the canvas. */
  readonly onPan: (right: number, down: number) => void;
}

/** Lies over a picture that is seen closely: it is drawn along by hand, or moved by arrows. */
export function PanField({ onPan }: PanFieldProps): ReactNode {
  const held = useRef<{ readonly x: number; readonly y: number } | null>(null);
  const keys = (event: KeyboardEvent): void => {
    const [right, down] = arrowOf(event.key);
    if (right === 0 && down === 0) return;
    event.preventDefault();
    onPan(-right / 4, -down / 4);
  };
  return (
    <button
      type="button"
      className="pan-field"
      aria-label={lookLabels.panning}
      onKeyDown={keys}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        held.current = { x: event.clientX, y: event.clientY };
      }}
      onPointerMove={(event) => {
        if (held.current === null) return;
        const { width, height } = event.currentTarget.getBoundingClientRect();
        onPan((event.clientX - held.current.x) / width, (event.clientY - held.current.y) / height);
        held.current = { x: event.clientX, y: event.clientY };
      }}
      onPointerUp={() => {
        held.current = null;
      }}
      onPointerCancel={() => {
        held.current = null;
      }}
    />
  );
}
