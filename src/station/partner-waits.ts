import { partnerWaitMs } from '../judge/index.ts';

/** Frames whose second file has its time still to come; each is spoken of once when that is over. */
export class PartnerWaits {
  readonly #waiting = new Set<NodeJS.Timeout>();
  readonly #over: (frame: string) => void;

  constructor(over: (frame: string) => void) {
    this.#over = over;
  }

  add(frame: string): void {
    const timer = setTimeout(() => {
      this.#waiting.delete(timer);
      this.#over(frame);
    }, partnerWaitMs + 1000);
    this.#waiting.add(timer);
  }

  close(): void {
    for (const timer of this.#waiting) clearTimeout(timer);
    this.#waiting.clear();
  }
}
