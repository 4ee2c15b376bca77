import { KiB, MiB } from '../../base/index.ts';

/** What bounds the sending of a delivery. */
export interface SendLimits {
  /** Attempts in a row that brought no byte further, before the delivery waits for a person: with the pauses between them, some five minutes. */
  readonly triesMax: number;
  /** Pause before the second attempt, ms; doubled for each one after it. */
  readonly pauseMs: number;
  /** Longest pause between two attempts, ms: a server that restarts is back within it. */
  readonly pauseMsMax: number;
  /** How long a server may be silent while it is asked something, ms: a disk that wakes up takes ten seconds. */
  readonly silenceMsMax: number;
}

export const defaultSendLimits: SendLimits = {
  triesMax: 8,
  pauseMs: 1000,
  pauseMsMax: 120_000,
  silenceMsMax: 30_000,
};

/** Pause before an attempt, the second being number 1. Every attempt waits longer, within the bound. */
export function pauseBefore(attempt: number, { pauseMs, pauseMsMax }: SendLimits): number {
  return Math.min(pauseMsMax, pauseMs * 2 ** (attempt - 1));
}

/** Bytes of one write or read of SFTP: what every server takes (draft-ietf-secsh-filexfer-02, section 3: 32768 bytes of data). */
export const sftpPieceBytes: number = 32 * KiB;
/** Writes or reads that are under way at a time: 1 MiB in flight fills 100 Mbit/s over a line of 80 ms. */
export const sftpPiecesMax = 32;
/** A part of a file on its way to S3-compatible storage, at least: what is lost by a cut, and what lies in memory. */
export const partBytesLeast: number = 8 * MiB;
