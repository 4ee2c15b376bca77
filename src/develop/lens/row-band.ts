import type { Region } from '../../image/index.ts';
import type { FillStrip } from '../strip-kernels.ts';
import { stripRows } from '../strips.ts';

/** Where uncorrected light comes from: rows of `window` into the start of `strip`. */
export interface LensSource {
  readonly window: Region;
  readonly strip: Float32Array;
  readonly fill: FillStrip;
}

/** Rows of the source that are at hand, in a ring that grows to what is asked for at one time. */
export class RowBand {
  readonly #source: LensSource;
  samples = new Float32Array(0);
  rows = 0;
  readonly widthPx: number;
  /** Rows at hand: from, up to but not with. */
  #from = 0;
  #end = 0;

  constructor(source: LensSource) {
    this.#source = source;
    this.widthPx = source.window.widthPx;
  }

  /** Has the rows `lowest` … `highest`, as far as there are such, at hand; answers the first and last of them. */
  bring(lowest: number, highest: number): readonly [number, number] {
    const { heightPx } = this.#source.window;
    const from = Math.min(heightPx - 1, Math.max(0, Number.isFinite(lowest) ? lowest : 0));
    const to = Math.min(heightPx - 1, Math.max(from, Number.isFinite(highest) ? highest : 0));
    const chunk = stripRows(this.#source.window);
    this.#makeRoom(to - from + 1 + chunk);
    // Rows come in order; what was let go, or lies far ahead, is begun anew.
    if (from < this.#from || from > this.#end) {
      this.#from = from;
      this.#end = from;
    }
    while (this.#end <= to) this.#fill(this.#end, Math.min(heightPx, this.#end + chunk));
    this.#from = Math.max(this.#from, this.#end - this.rows);
    return [from, to];
  }

  #makeRoom(rows: number): void {
    if (rows <= this.rows) return;
    this.rows = rows;
    this.samples = new Float32Array(rows * this.widthPx * 3);
    this.#from = 0;
    this.#end = 0;
  }

  #fill(rowStart: number, rowEnd: number): void {
    const { fill, strip } = this.#source;
    const stride = this.widthPx * 3;
    fill(rowStart, rowEnd);
    for (let row = rowStart; row < rowEnd; row++) {
      const at = (row - rowStart) * stride;
      this.samples.set(strip.subarray(at, at + stride), (row % this.rows) * stride);
    }
    this.#end = rowEnd;
  }
}
