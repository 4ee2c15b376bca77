import {
  glided,
  hasArrived,
  heldInside,
  isWhole,
  wholeView,
  type ZoomStage,
  type ZoomView,
} from '../viewport/index.ts';

/** A page that was in the background must not leap. */
const stepMsMax = 100;

/**
 * Where one looks now and where the way leads, frame of the screen by frame. Outside React: sixty times a second nothing
 * but the picture changes. Null stands for the whole picture, whatever its size. What is looked at stays when the next
 * frame comes, so that the same spot of both can be compared.
 */
export class ZoomMotion {
  readonly #listeners = new Set<() => void>();
  #stage: ZoomStage | null = null;
  #view: ZoomView | null = null;
  #target: ZoomView | null = null;
  #frame: number | null = null;
  #lastMs: number | null = null;

  /** Where one looks now; null for the whole picture. */
  get view(): ZoomView | null {
    return this.#view;
  }

  /** Where the way leads: what is worth fetching. */
  get target(): ZoomView | null {
    return this.#target;
  }

  get stage(): ZoomStage | null {
    return this.#stage;
  }

  /** The whole picture as a view; null while there is nothing to look at. */
  get wholeView(): ZoomView | null {
    return this.#stage === null ? null : wholeView(this.#stage);
  }

  /** Where one looks now as a view, the whole picture too; null while there is nothing to look at. */
  get figures(): ZoomView | null {
    return this.#view ?? this.wholeView;
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** Another picture or another size of the space it is looked at in; tells nobody, since who sets it draws. */
  setStage(stage: ZoomStage | null): void {
    this.#stage = stage;
    if (stage === null) return;
    this.#view = this.#held(this.#view, stage);
    this.#target = this.#held(this.#target, stage);
  }

  /** At once, as a hand moves. */
  jumpTo(view: ZoomView | null): void {
    const { stage } = this;
    if (stage === null) return;
    this.#target = this.#held(view, stage);
    this.#view = view === null ? null : heldInside(view, stage);
    this.#wake();
  }

  /** On a short way, or at once where people want no movement. */
  glideTo(view: ZoomView | null): void {
    if (matchMedia('(prefers-reduced-motion: reduce)').matches) {
      this.jumpTo(view);
      return;
    }
    const { stage } = this;
    if (stage === null) return;
    this.#target = this.#held(view, stage);
    this.#wake();
  }

  stop(): void {
    if (this.#frame !== null) cancelAnimationFrame(this.#frame);
    this.#frame = null;
    this.#lastMs = null;
  }

  #held(view: ZoomView | null, stage: ZoomStage): ZoomView | null {
    if (view === null) return null;
    const held = heldInside(view, stage);
    return isWhole(held, stage) ? null : held;
  }

  #wake(): void {
    this.#frame ??= requestAnimationFrame((atMs) => this.#step(atMs));
  }

  #step(atMs: number): void {
    this.#frame = null;
    const { stage } = this;
    if (stage === null) return;
    const elapsedMs = Math.min(stepMsMax, this.#lastMs === null ? 1000 / 60 : atMs - this.#lastMs);
    const to = this.#target ?? wholeView(stage);
    const from = this.#view ?? wholeView(stage);
    const next = glided(from, to, elapsedMs);
    const arrived = hasArrived(next, to);
    this.#view = arrived ? this.#target : next;
    this.#lastMs = arrived ? null : atMs;
    if (!arrived) this.#wake();
    for (const listener of this.#listeners) listener();
  }
}
