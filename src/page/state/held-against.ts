import type { Frame } from '../../contract/index.ts';

/** What a frame is held against: another frame, or what somebody drew. */
export type HeldAgainst =
  | { readonly kind: 'frame'; readonly id: string }
  | { readonly kind: 'layout'; readonly job: string; readonly shot: string; readonly layout: string };

/** As the station says; null for nothing, and for the reference itself. */
export function heldAgainst({ job, shot, heldAgainst: { reference, layout } }: Frame): HeldAgainst | null {
  if (reference === null) return null;
  if (!layout) return { kind: 'frame', id: reference };
  return shot === null ? null : { kind: 'layout', job, shot, layout: reference };
}
