import type { BagProgress, BagReport } from '../../bagging/index.ts';
import type { Finding } from '../../facts/index.ts';

/** One bag: made of a job, or read again. */
export type BagTask =
  | { readonly kind: 'make'; readonly job: string; readonly folder: string }
  | { readonly kind: 'check'; readonly folder: string };

/** What a packing process is asked: one thing in its life, and whether it is to rest. */
export type BagRequest =
  | { readonly kind: 'begin'; readonly home: string; readonly task: BagTask; readonly paused: boolean }
  | { readonly kind: 'pace'; readonly paused: boolean };

/** `originals` and `unfinished` are null where a bag was only read. */
export interface BagEnd extends BagReport {
  readonly originals: number | null;
  readonly unfinished: number | null;
  readonly leftOut: readonly Finding[];
}

export type BagNews =
  | { readonly kind: 'progress'; readonly progress: BagProgress }
  | { readonly kind: 'done'; readonly end: BagEnd }
  | { readonly kind: 'failed'; readonly why: string; readonly cure: string };
