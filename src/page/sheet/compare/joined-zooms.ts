import type { ZoomMotion } from '../../set/zoom-motion.ts';

/**
 * Several pictures looked at alike: where one of them goes the others go, frame by frame of the screen. A view is a scale and
 * shares of the picture (`viewport/zoom-view.ts`), so it means the same spot of each. The one that a hand or a key moves leads.
 */
export class JoinedZooms {
  readonly #motions = new Set<ZoomMotion>();
  #leader: ZoomMotion | null = null;

  /** Gives what takes it out again. */
  add(motion: ZoomMotion): () => void {
    this.#motions.add(motion);
    this.#leader ??= motion;
    const forget = motion.subscribe(() => {
      if (this.#leader === motion) this.#follow(motion);
    });
    return () => {
      forget();
      motion.stop();
      this.#motions.delete(motion);
      if (this.#leader === motion) this.#leader = [...this.#motions][0] ?? null;
    };
  }

  lead(motion: ZoomMotion): void {
    this.#leader = motion;
  }

  #follow(leader: ZoomMotion): void {
    for (const motion of this.#motions) if (motion !== leader) motion.jumpTo(leader.view);
  }
}
