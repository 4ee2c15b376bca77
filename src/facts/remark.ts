import type { EpochMs } from '../base/index.ts';
import type { SharePoint } from './shot-scale.ts';

/** By which scope somebody speaks: by a link for guests or for a pocket, or as the operator. */
export const speakerKinds = ['guest', 'pocket', 'operator'] as const;
export type SpeakerKind = (typeof speakerKinds)[number];

/** Who said something. */
export interface Speaker {
  /** As they said it of themselves; the link's or the operator's where they did not. */
  readonly name: string;
  readonly from: SpeakerKind;
  /** Name of the link they came in by; null on the computer of the station. */
  readonly link: string | null;
}

/** A note pinned to a point of a frame. Its id was made where it was written, so that it counts once. */
export interface Remark {
  readonly id: string;
  /** Shares of the whole upright original, whatever a look cuts off; null: about all of it. */
  readonly at: SharePoint | null;
  readonly text: string;
  /** Guests are not told of it. */
  readonly inside: boolean;
  readonly by: Speaker;
  readonly atMs: EpochMs;
  /** Null while it is open. */
  readonly settled: { readonly by: Speaker; readonly atMs: EpochMs } | null;
  /** In the order they were given. */
  readonly answers: readonly RemarkAnswer[];
}

export interface RemarkAnswer {
  readonly id: string;
  readonly text: string;
  readonly by: Speaker;
  readonly atMs: EpochMs;
}
