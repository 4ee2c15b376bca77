import type { HandOverPart } from './next-steps.ts';

/** The heading of a part of the Hand-over page: it takes the focus where a step leads there. */
export function headingOf(part: HandOverPart | 'destinations' | 'next'): string {
  return `hand-${part}`;
}

/** The heading of a delivery's slip. */
export function slipHeadingOf(delivery: string): string {
  return `slip-${delivery}`;
}
