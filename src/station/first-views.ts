import type { CutPreview } from './core/first-view.ts';

/** As many previews as fit on one arrival rail of a busy hour; each is some hundred kilobytes. */
const previewsMax = 24;

/**
 * The previews cut out last, by frame. A cache: what was dropped is cut out of the file again when somebody asks.
 */
export class FirstViews {
  readonly #previews = new Map<string, CutPreview>();

  set(frame: string, preview: CutPreview): void {
    this.#previews.delete(frame);
    this.#previews.set(frame, preview);
    for (const oldest of this.#previews.keys()) {
      if (this.#previews.size <= previewsMax) return;
      this.#previews.delete(oldest);
    }
  }

  get(frame: string): CutPreview | null {
    return this.#previews.get(frame) ?? null;
  }

  drop(frame: string): void {
    this.#previews.delete(frame);
  }
}
