import type { RgbHalf } from '../../../image/index.ts';
import type { Painter, Placed, Tables } from '../painter/painter.ts';

/** A picture that needs longer than this while a knob is turned is drawn at half the size until the knob rests, ms. */
const frameMsMax = 50;
const coarseScale = 0.5;

/**
 * What stands on the canvas: told piece by piece, drawn once for each picture of the screen. While a knob is turned a
 * slow machine is given less to draw.
 */
export class Show {
  readonly #painter: Painter;
  #placed: Placed | null = null;
  #edge = 0;
  #isTurning = false;
  #isCoarse = false;
  #slow = 0;
  #waiting = 0;
  #drawnMs = 0;
  /** Pictures drawn, for whoever measures. */
  drawn = 0;

  constructor(painter: Painter) {
    this.#painter = painter;
  }

  get kind(): Painter['kind'] {
    return this.#painter.kind;
  }

  setScene(scene: RgbHalf): void {
    this.#painter.setScene(scene);
    this.#ask();
  }

  setTables(side: 'now' | 'before', tables: Tables): void {
    this.#painter.setTables(side, tables);
    this.#ask();
  }

  place(placed: Placed): void {
    this.#placed = placed;
    this.#ask();
  }

  setEdge(edge: number): void {
    this.#edge = edge;
    this.#ask();
  }

  setTurning(isTurning: boolean): void {
    if (this.#isTurning === isTurning) return;
    this.#isTurning = isTurning;
    this.#slow = 0;
    if (!isTurning) this.#ask();
  }

  close(): void {
    cancelAnimationFrame(this.#waiting);
    this.#painter.close();
  }

  #ask(): void {
    if (this.#waiting !== 0) return;
    this.#waiting = requestAnimationFrame((nowMs) => {
      this.#waiting = 0;
      this.#draw(nowMs);
    });
  }

  #draw(nowMs: number): void {
    if (this.#placed === null) return;
    if (this.#isTurning) this.#heed(nowMs - this.#drawnMs);
    this.#drawnMs = nowMs;
    this.drawn += 1;
    const scale = this.#isTurning && this.#isCoarse ? coarseScale : 1;
    const { widthPx, heightPx, toScene, middle } = this.#placed;
    const scaled = (edgePx: number): number => Math.max(1, Math.round(edgePx * scale));
    this.#painter.draw({
      placed: { widthPx: scaled(widthPx), heightPx: scaled(heightPx), toScene, middle },
      edge: this.#edge,
    });
  }

  /** Twice in a row, so that one hiccup changes nothing. A pause of the hand is no slowness. */
  #heed(sinceMs: number): void {
    if (sinceMs > 1000) return;
    this.#slow = sinceMs > frameMsMax ? this.#slow + 1 : 0;
    if (this.#slow >= 2) this.#isCoarse = true;
  }
}
