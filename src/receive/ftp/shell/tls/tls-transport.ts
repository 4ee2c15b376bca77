import { Socket } from 'node:net';
import { Duplex } from 'node:stream';
import { KiB } from '../../../../base/index.ts';
import { takeHandle } from '../take-handle.ts';

/** One read from the system. With 64 KiB decrypting cost a tenth more of the processor (measured, 400 MB, loopback). */
const readBytes = 256 * KiB;

/**
 * The TCP connection under a protected data connection, as a stream of its own, so that two ends can be told apart
 * that look alike above TLS: close_notify, and the mere end of TCP, which anybody on the line can bring about.
 *
 * Node's TLS says `end` for both. But it works through all that this stream gave before it is told that the stream has
 * ended: `drained` is called in between, and if TLS has ended by then, it was by close_notify. A connection that breaks
 * ends this stream too, behind what came before: bytes and even a close_notify that made it still count.
 *
 * TLS copies what it is given at once, so one buffer serves all reads. That makes up for the way round: measured as
 * processor time for each gigabyte, 13 % less than TLS over the system's handle, which allocates for each read.
 */
export class TlsTransport extends Duplex {
  /** The connection broke (RST, time-out of the system) and was not ended in order. */
  broke = false;
  readonly #socket: Socket;
  #memory = Buffer.allocUnsafeSlow(readBytes);
  #inputOver = false;

  constructor(accepted: Socket, drained: () => void) {
    super({ allowHalfOpen: true });
    this.on('end', drained);
    // Later trouble is found by whoever reads or writes.
    this.on('error', () => {});
    this.#socket = this.#read(accepted);
    this.#socket
      .on('end', () => this.#endInput())
      .on('error', () => this.#break())
      .on('close', () => this.#break());
  }

  override _read(): void {
    this.#socket.resume();
  }

  override _write(chunk: Buffer, _encoding: string, done: (trouble?: Error | null) => void): void {
    this.#socket.write(chunk, done);
  }

  override _final(done: () => void): void {
    this.#socket.end(done);
  }

  override _destroy(trouble: Error | null, done: (trouble: Error | null) => void): void {
    this.#socket.destroy();
    done(trouble);
  }

  /** A socket that reads into our memory; the accepted one where its handle cannot be had. */
  #read(accepted: Socket): Socket {
    const handle = takeHandle(accepted);
    if (handle === null) {
      return accepted.on('data', (chunk: Buffer) => {
        if (!this.push(chunk)) accepted.pause();
      });
    }
    const options = {
      allowHalfOpen: true,
      // Long in use within Node (cluster, child processes) but left out of its types, hence the variable.
      handle,
      onread: { buffer: () => this.#memory, callback: (bytes: number) => this.#give(bytes) },
    };
    return new Socket(options);
  }

  #give(bytes: number): boolean {
    const goesOn = this.push(this.#memory.subarray(0, bytes));
    // TLS was not reading, so the stream holds on to the memory: the next read needs its own.
    if (this.readableLength > 0) this.#memory = Buffer.allocUnsafeSlow(readBytes);
    return goesOn;
  }

  #endInput(): void {
    if (this.#inputOver) return;
    this.#inputOver = true;
    this.push(null);
  }

  #break(): void {
    if (!this.#inputOver) this.broke = true;
    this.#endInput();
  }
}
