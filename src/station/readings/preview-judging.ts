import type { CaptureFacts, FrameReadings } from '../../facts/index.ts';
import type { DevelopPool } from '../../workers/index.ts';
import type { CutPreview } from '../core/first-view.ts';
import { wishesOf } from './wishes.ts';

/** In less nothing can be told; more takes longer than the file that it is only a foretaste of. */
const pixelsMin = 500_000;
const pixelsMax = 4_500_000;

/** Reads previews while their files arrive: one at a time, and of those that come meanwhile only the last. */
export class PreviewJudging {
  readonly #pool: Pick<DevelopPool, 'judge'>;
  readonly #done: (frame: string, readings: FrameReadings) => Promise<void>;
  #waiting: { readonly frame: string; readonly preview: CutPreview; readonly capture: CaptureFacts } | null =
    null;
  #running = false;

  constructor(
    pool: Pick<DevelopPool, 'judge'>,
    done: (frame: string, readings: FrameReadings) => Promise<void>,
  ) {
    this.#pool = pool;
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
      const { readings } = await this.#pool.judge({
        path: `preview of ${frame}`,
        kind: 'preview',
        wishes: wishesOf(capture),
        preview: { jpeg, orientation, fullWidthPx: uprightWidthPx },
      });
      await this.#done(frame, readings);
    } catch {
      // A preview that cannot be read says nothing; the file itself will.
    } finally {
      this.#running = false;
      void this.#next();
    }
  }
}
