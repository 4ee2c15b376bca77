import type { PlaceTroubles } from './place-troubles.ts';

/** A call that has not come back for so long, and longer for what takes its time at so many bytes a second, hangs. */
const silentAfterMs = 60_000;
const slowestBytesPerSecond = 2e6;

/** Waits for the answers of a place, and says so where one takes longer than its bytes can explain. */
export class Patience {
  readonly #folder: string;
  readonly #troubles: PlaceTroubles;

  constructor(folder: string, troubles: PlaceTroubles) {
    this.#folder = folder;
    this.#troubles = troubles;
  }

  async heard<Answer>(bytes: number, answer: Promise<Answer>): Promise<Answer> {
    const patienceMs = silentAfterMs + (bytes / slowestBytesPerSecond) * 1000;
    const timer = setTimeout(
      () => this.#troubles.found('silence', { code: 'copy.silent', args: { folder: this.#folder } }),
      patienceMs,
    );
    timer.unref();
    try {
      return await answer;
    } finally {
      clearTimeout(timer);
      this.#troubles.over('silence');
    }
  }
}
