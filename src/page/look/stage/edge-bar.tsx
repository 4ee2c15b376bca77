import {
  type KeyboardEvent,
  type PointerEvent,
  type ReactNode,
  type RefObject,
  useLayoutEffect,
  useRef,
} from 'react';
import { lookLabels } from '../../../words/index.ts';

interface EdgeBarProps {
  readonly edge: number;
  readonly onEdge: (edge: number) => void;
  /** The box of the picture, whose width the edge is a share of. */
  readonly box: RefObject<HTMLElement | null>;
}

/** The movable edge: left of it the picture as it was, right of it as it is now. */
export function EdgeBar({ edge, onEdge, box }: EdgeBarProps): ReactNode {
  const bar = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    if (bar.current !== null) bar.current.style.left = `${edge * 100}%`;
  }, [edge]);
  const held = (value: number): number => Math.min(1, Math.max(0, value));
  const move = (event: PointerEvent): void => {
    if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const rect = box.current?.getBoundingClientRect();
    if (rect !== undefined && rect.width > 0) onEdge(held((event.clientX - rect.left) / rect.width));
  };
  const keys = (event: KeyboardEvent): void => {
    const by = { ArrowLeft: -0.02, ArrowRight: 0.02, PageDown: -0.2, PageUp: 0.2, Home: -1, End: 1 }[
      event.key
    ];
    if (by === undefined) return;
    event.preventDefault();
    onEdge(held(edge + by));
  };
  return (
    <div
      ref={bar}
      className="edge-bar"
      role="slider"
      tabIndex={0}
      aria-label={lookLabels.edge}
      aria-orientation="horizontal"
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={Math.round(edge * 100)}
      onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
      onPointerMove={move}
      onKeyDown={keys}
    />
  );
}
