/** A wait that can be cut short. A call to wake that comes before the wait is not lost: the wait ends at once. */
export class Nap {
  #isWoken = false;
  #rouse: (() => void) | null = null;

  wake(): void {
    this.#isWoken = true;
    this.#rouse?.();
  }

  /** Until {@link wake}, or for so long. A timer of it keeps no process alive. */
  async sleep(atMostMs: number): Promise<void> {
    if (!this.#isWoken) {
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, atMostMs);
        timer.unref();
        this.#rouse = () => {
          clearTimeout(timer);
          resolve();
        };
      });
    }
    this.#rouse = null;
    this.#isWoken = false;
  }
}
