/**
 * Receive buffers that outlive their uploads, so that a frame costs no allocation.
 *
 * They lie in shared memory: whoever keeps the bytes can hash them in a worker thread without a copy. Reading from a
 * socket and writing to a file are no slower with it (measured on loopback, 400 MB each way).
 */
export class BufferPool {
  readonly #bufferBytes: number;
  readonly #idleMax: number;
  readonly #idle: Uint8Array[] = [];

  /** Keeps at most `idleMax` buffers for later; more are left to the garbage collector. */
  constructor(bufferBytes: number, idleMax: number) {
    this.#bufferBytes = bufferBytes;
    this.#idleMax = idleMax;
  }

  /** A buffer that is the caller's until {@link give}; what an earlier upload left in it is still there. */
  take(): Uint8Array {
    return this.#idle.pop() ?? new Uint8Array(new SharedArrayBuffer(this.#bufferBytes));
  }

  give(buffer: Uint8Array): void {
    if (this.#idle.length < this.#idleMax) this.#idle.push(buffer);
  }
}
