import type { SharePoint } from '../../facts/index.ts';

/** What a remark that is being written is about, a point or all of the picture, and as far as it is written. */
export interface Draft {
  readonly point: SharePoint | null;
  readonly text: string;
}

/**
 * Remarks that were begun, by their frame. A picture that goes away under the hand - it was put aside, or a finger slipped - takes
 * no words with it: they are there again with the picture, until they are sent or called off.
 */
export class BegunDrafts {
  readonly #drafts = new Map<string, Draft>();

  of(frame: string): Draft | null {
    return this.#drafts.get(frame) ?? null;
  }

  keep(frame: string, draft: Draft | null): void {
    if (draft === null) this.#drafts.delete(frame);
    else this.#drafts.set(frame, draft);
  }
}
