/** Bytes at the pace of a radio link. */
import { Readable } from 'node:stream';
import { setTimeout as wait } from 'node:timers/promises';

export interface PaceOptions {
  readonly bytes: Uint8Array;
  /** > 0; Infinity sends as fast as the line takes it. */
  readonly bytesPerSecond: number;
  readonly signal: AbortSignal;
  /** Called after each piece with the bytes handed over so far; what it throws ends the stream. */
  readonly onSent: (sentBytes: number) => void;
}

/** Ten pieces a second would be seen as jumps on a progress bar; two hundred are smooth and cost nothing. */
const piecesPerSecond = 200;
const pieceBytesMin = 1024;
const pieceBytesMax = 64 * 1024;

/**
 * A stream that hands over its bytes evenly. It holds to the schedule as a whole: a piece that came late because the
 * process was busy is not paid for by all that follow.
 */
export function pacedSource(options: PaceOptions): Readable {
  return Readable.from(pieces(options), { objectMode: false, highWaterMark: pieceBytesMax });
}

async function* pieces({ bytes, bytesPerSecond, signal, onSent }: PaceOptions): AsyncGenerator<Uint8Array> {
  const pieceBytes = Math.round(
    Math.min(pieceBytesMax, Math.max(pieceBytesMin, bytesPerSecond / piecesPerSecond)),
  );
  const startedMs = performance.now();
  let sent = 0;
  while (sent < bytes.length) {
    const dueMs = startedMs + (sent / bytesPerSecond) * 1000;
    const aheadMs = dueMs - performance.now();
    if (aheadMs > 1) await wait(aheadMs, undefined, { signal });
    signal.throwIfAborted();
    const piece = bytes.subarray(sent, sent + pieceBytes);
    yield piece;
    sent += piece.length;
    onSent(sent);
  }
}
