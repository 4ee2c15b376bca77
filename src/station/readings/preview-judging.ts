import type { CaptureFacts } from '../../facts/index.ts';
import type { CutPreview } from '../core/first-view.ts';
import type { FrameJudging, ReadFrame } from './frame-judging.ts';

/** In less nothing can be told; more takes longer than the file that it is only a foretaste of. */
const pixelsMin = 500_000;
const pixelsMax = 4_500_000;

/** Reads previews while their files arrive: one at a time, and of those that come meanwhile only the last. */
export class PreviewJudging {
  readonly #judging: Pick<FrameJudging, 'readPreview'>;
  readonly #done: (frame: string, read: ReadFrame) => Promise<void>;
  #waiting: { readonly frame: string; readonly preview: CutPreview; readonly capture: CaptureFacts } | null =
    null;
  #running = false;

  constructor(
    judging: Pick<FrameJudging, 'readPreview'>,
    done: (frame: string, read: ReadFrame) => Promise<void>,
  ) {
    this.#judging = judging;
    this.#done = done;
  }

  add(frame: string, preview: CutPreview, capture: CaptureFacts): void {
    const pixels = preview.widthPx * preview.heightPx;
    if (!preview.complete || pixels < pixelsMin || pixels > pixelsMax) return;
    this.#waiting = { frame, preview, capture };
    void this.#next();
  }

  async #next(): Promise<void> {
    const next = this.#waiting;
    if (this.#running || next === null) return;
    this.#running = true;
    this.#waiting = null;
    const { frame, preview, capture } = next;
    const { jpeg, orientation, uprightWidthPx } = preview;
    try {
      const pixels = { jpeg, orientation, fullWidthPx: uprightWidthPx };
      await this.#done(frame, await this.#judging.readPreview(frame, capture, pixels));
    } catch {
      // A preview that cannot be read says nothing; the file itself will.
    } finally {
      this.#running = false;
      void this.#next();
    }
  }
}
