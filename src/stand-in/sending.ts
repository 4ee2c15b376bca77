import { setTimeout as wait } from 'node:timers/promises';
import { errorMessage, SetsideError } from '../base/index.ts';
import { standInErrorCodes } from './errors.ts';
import { pacedSource } from './paced-source.ts';
import type { OnProgress } from './progress.ts';

/** The sending half of a camera, whatever it speaks. */
export interface SendingCamera {
  /** Logs in. Rejects `stand-in-unreachable`, `stand-in-refused`. */
  connect(): Promise<unknown>;
  /**
   * Sends one file, again after a break. Settles when the station has acknowledged it; rejects
   * `stand-in-upload-failed` when the retries are used up, `stand-in-unreachable`, `stand-in-refused`, or with the
   * signal's reason.
   */
  send(upload: Upload): Promise<void>;
  /** A sign of life while nothing is shot. A connection that has gone is no error: the next frame makes a new one. */
  keepAlive(): Promise<void>;
  close(): void;
}

export interface SendingOptions {
  readonly host: string;
  readonly port: number;
  readonly user: string;
  readonly password: string;
  readonly paceBytesPerSecond: number;
  /** How often a broken upload is taken up again before the frame is given up. */
  readonly retries: number;
  /** How long it waits before that. */
  readonly resendAfterMs: number;
  /** Whether it then goes on where the station says the file ends, or sends it from the beginning. */
  readonly afterBreak: AfterBreak;
  /** A station that says nothing for so long is taken for gone; default {@link silenceMsMax}. */
  readonly silenceMs?: number;
  readonly signal: AbortSignal;
  readonly onProgress: OnProgress;
}

/** Simple cameras send `again`, others `resume`. */
export type AfterBreak = 'resume' | 'again';

export interface Upload {
  /** `/DCIM/100SETSD` */
  readonly folder: string;
  /** `QMST0001.DNG` */
  readonly file: string;
  readonly bytes: Uint8Array;
  /** Share of the bytes after which the first attempt's data connection is reset; undefined: it is not. */
  readonly cutAt?: number;
}

/** How far an attempt has come. */
export interface Sent {
  bytes: number;
  /** Whether the line was broken on purpose. */
  cut: boolean;
}

/** A station that says nothing for so long is taken for gone. */
export const silenceMsMax = 30_000;

/** Tries until the station has the file; after a break it waits a moment, connects again and sends again. */
export async function sendStubbornly(
  { retries, resendAfterMs, signal, onProgress }: SendingOptions,
  upload: Upload,
  attempt: (again: boolean, sent: Sent) => Promise<void>,
  close: () => void,
): Promise<void> {
  for (let left = retries; ; left--) {
    const sent: Sent = { bytes: 0, cut: false };
    try {
      return await attempt(left < retries, sent);
    } catch (failure) {
      close();
      signal.throwIfAborted();
      if (failure instanceof SetsideError) throw failure;
      const why = sent.cut ? 'as ordered' : errorMessage(failure);
      const args = { name: upload.file, sentBytes: sent.bytes, why };
      onProgress({ code: 'stand-in.broke-off', args: { ...args, retriesLeft: left } });
      if (left === 0) throw uploadError(upload, failure);
      await wait(resendAfterMs, undefined, { signal });
    }
  }
}

/** The bytes of an attempt from `start` on, at the camera's pace; `cut` is called where the line is to break. */
export function uploadSource(
  { paceBytesPerSecond, signal, onProgress }: SendingOptions,
  upload: Upload,
  attempt: { readonly start: number; readonly again: boolean; readonly sent: Sent; readonly cut: () => void },
): ReturnType<typeof pacedSource> {
  const { start, again, sent, cut } = attempt;
  const { file, bytes } = upload;
  const cutBytes = again
    ? Number.POSITIVE_INFINITY
    : (upload.cutAt ?? Number.POSITIVE_INFINITY) * bytes.length;
  if (start > 0) onProgress({ code: 'stand-in.resuming', args: { name: file, fromBytes: start } });
  return pacedSource({
    bytes: bytes.subarray(start),
    bytesPerSecond: paceBytesPerSecond,
    signal,
    onSent: (pieceBytes) => {
      const before = sent.bytes;
      sent.bytes = start + pieceBytes;
      if (sent.bytes >= cutBytes) {
        sent.cut = true;
        cut();
      }
      if (isNextStep(before, sent.bytes, bytes.length)) {
        onProgress({
          code: 'stand-in.sending',
          args: { name: file, sentBytes: sent.bytes, bytes: bytes.length },
        });
      }
    },
  });
}

/** Progress is told in hundredths: pieces are far smaller, and every listener would pay for each. */
function isNextStep(beforeBytes: number, afterBytes: number, wholeBytes: number): boolean {
  const step = (bytes: number): number => Math.floor((bytes * 100) / wholeBytes);
  return step(afterBytes) > step(beforeBytes);
}

/** Of several cameras only the user says which was refused; a station tells a client no more than that. */
export function connectError(
  failure: unknown,
  isRefused: boolean,
  { host, port, user }: Pick<SendingOptions, 'host' | 'port' | 'user'>,
): SetsideError {
  return isRefused
    ? new SetsideError(
        standInErrorCodes.refused,
        `${host}:${port} did not let in user ${user}: user or password wrong, or it may not come by this door or from here`,
        {
          cause: failure,
          cure: 'Compare with setside camera list, which shows user, password and doors of each camera.',
          details: { host, port, user },
        },
      )
    : new SetsideError(
        standInErrorCodes.unreachable,
        `expected a station at ${host}:${port}, got: ${errorMessage(failure)}`,
        {
          cause: failure,
          retryable: true,
          cure: 'Start the station, or check its address and port.',
          details: { host, port },
        },
      );
}

function uploadError(upload: Upload, cause: unknown): SetsideError {
  return new SetsideError(
    standInErrorCodes.uploadFailed,
    `expected ${upload.file} to be acknowledged, got: ${errorMessage(cause)}`,
    { cause, retryable: true, details: { name: upload.file, bytes: upload.bytes.length } },
  );
}
