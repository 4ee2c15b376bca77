import type { ReactNode } from 'react';
import type { Standing } from './worst-judgement.ts';

/**
 * The shape of a judgement: filled disc good, half disc doubt, ring with bar bad, dotted ring unknown; and of a
 * frame whose doubts were accepted a ring about a disc. The word always stands beside it, so it is hidden from readers of the page's text.
 */
export function VerdictShape({ judgement }: { readonly judgement: Standing }): ReactNode {
  return (
    <svg className="verdict-shape" data-judgement={judgement} viewBox="0 0 32 32" aria-hidden="true">
      {shapes[judgement]}
    </svg>
  );
}

const shapes: Readonly<Record<Standing, ReactNode>> = {
  good: <circle cx="16" cy="16" r="14" fill="currentColor" />,
  doubt: (
    <>
      <circle cx="16" cy="16" r="13" fill="none" stroke="currentColor" strokeWidth="2.5" />
      <path d="M16 3a13 13 0 0 0 0 26z" fill="currentColor" />
    </>
  ),
  bad: (
    <>
      <circle cx="16" cy="16" r="12" fill="none" stroke="currentColor" strokeWidth="4" />
      <path d="M4 16h24" stroke="currentColor" strokeWidth="5" />
    </>
  ),
  accepted: (
    <>
      <circle cx="16" cy="16" r="13" fill="none" stroke="currentColor" strokeWidth="2.5" />
      <circle cx="16" cy="16" r="7" fill="currentColor" />
    </>
  ),
  unknown: (
    <circle
      cx="16"
      cy="16"
      r="13"
      fill="none"
      stroke="currentColor"
      strokeWidth="3"
      strokeLinecap="round"
      strokeDasharray="0.1 6.7"
    />
  ),
};
