import { MiB } from '../base/index.ts';
import type { CutPreview } from './core/first-view.ts';

/** As many previews as fit on one arrival rail of a busy hour. */
const previewsMax = 24;

/** Most are some hundred kilobytes, but a full-size one, or a JPEG that is arriving, has ten megabytes and more. */
export const previewBytesMax: number = 96 * MiB;

/**
 * The previews cut out last, by frame. A cache: what was dropped is cut out of the file again when somebody asks.
 */
export class FirstViews {
  readonly #previews = new Map<string, CutPreview>();

  set(frame: string, preview: CutPreview): void {
    this.#previews.delete(frame);
    this.#previews.set(frame, preview);
    for (const oldest of this.#previews.keys()) {
      // The latest stays, however large: somebody is about to ask for it.
      const fits = this.#previews.size <= previewsMax && this.heldBytes <= previewBytesMax;
      if (fits || this.#previews.size === 1) return;
      this.#previews.delete(oldest);
    }
  }

  get heldBytes(): number {
    return [...this.#previews.values()].reduce((sum, { jpeg }) => sum + jpeg.length, 0);
  }

  get(frame: string): CutPreview | null {
    return this.#previews.get(frame) ?? null;
  }

  drop(frame: string): void {
    this.#previews.delete(frame);
  }
}
