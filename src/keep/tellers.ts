/**
 * Hands events to listeners away from the path of the bytes: after the current turn, in order, each on its own.
 * What a listener returns is not waited for, and what it throws reaches neither the camera nor the others.
 */
export class Tellers<Event> {
  readonly #listeners = new Set<(event: Event) => void>();
  readonly #queue: Event[] = [];

  add(listener: (event: Event) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  tell(event: Event): void {
    this.#queue.push(event);
    if (this.#queue.length === 1) setImmediate(() => this.flush());
  }

  /** Tells what is queued now, for a close that must not lose the last word. */
  flush(): void {
    for (const event of this.#queue.splice(0)) {
      for (const listener of this.#listeners) this.#tellOne(listener, event);
    }
  }

  #tellOne(listener: (event: Event) => void, event: Event): void {
    try {
      listener(event);
    } catch {
      // A listener's own mistake; it has its own ways to report it.
    }
  }
}
