import type { ReactNode } from 'react';
import type { Judgement } from '../../facts/index.ts';

interface MarkShapeProps {
  readonly judgement: Judgement;
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** A judgement's shape as a mark of a plot: filled disc, half disc, ring with bar, dotted ring. */
export function MarkShape({ judgement, x, y, radius }: MarkShapeProps): ReactNode {
  const turn = `translate(${x} ${y}) scale(${radius})`;
  return (
    <g className="mark" data-judgement={judgement} transform={turn}>
      {shapes[judgement]}
    </g>
  );
}

/** About 0, of radius 1. */
const shapes: Readonly<Record<Judgement, ReactNode>> = {
  good: <circle r="1" fill="currentColor" />,
  doubt: (
    <>
      <circle r="0.9" fill="var(--paper)" stroke="currentColor" strokeWidth="0.2" />
      <path d="M0 -0.9a0.9 0.9 0 0 0 0 1.8z" fill="currentColor" />
    </>
  ),
  bad: (
    <>
      <circle r="0.85" fill="var(--paper)" stroke="currentColor" strokeWidth="0.3" />
      <path d="M-0.85 0h1.7" stroke="currentColor" strokeWidth="0.34" />
    </>
  ),
  unknown: (
    <circle
      r="0.85"
      fill="none"
      stroke="currentColor"
      strokeWidth="0.3"
      strokeLinecap="round"
      strokeDasharray="0.02 0.6"
    />
  ),
};
