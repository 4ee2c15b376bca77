/**
 * The sending half of a camera: one FTP connection (RFC 959, passive) that is kept between frames, and a little
 * stubbornness. Simple on purpose, as cameras are: it makes its folders, stores, and after a break waits a moment,
 * connects again and sends again.
 */
import { setTimeout as wait } from 'node:timers/promises';
import { type AccessOptions, Client, FTPError } from 'basic-ftp';
import { errorMessage, SetsideError } from '../base/index.ts';
import { standInErrorCodes } from './errors.ts';
import { pacedSource } from './paced-source.ts';
import type { OnProgress } from './progress.ts';

export interface FtpCameraOptions {
  readonly host: string;
  readonly port: number;
  readonly user: string;
  readonly password: string;
  readonly secure: Secure;
  readonly paceBytesPerSecond: number;
  /** How often a broken upload is taken up again before the frame is given up. */
  readonly retries: number;
  /** How long it waits before that. */
  readonly resendAfterMs: number;
  /** Whether it then goes on where the station says the file ends, or sends it from the beginning. */
  readonly afterBreak: AfterBreak;
  readonly signal: AbortSignal;
  readonly onProgress: OnProgress;
}

/** How the line is kept secret; the station's certificate is always verified. */
export interface Secure {
  /** `explicit`: FTP with AUTH TLS (RFC 4217); `implicit`: TLS from the first byte. */
  readonly how: 'no' | 'explicit' | 'implicit';
  /** The root certificate that was imported, PEM; null for those the system trusts. */
  readonly ca: string | null;
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
interface Sent {
  bytes: number;
  /** Whether the line was broken on purpose. */
  cut: boolean;
}

/** A station that says nothing for so long is taken for gone. */
const silenceMsMax = 30_000;
/** 530: not logged in (RFC 959 section 4.2). */
const notLoggedIn = 530;

export class FtpCamera {
  readonly #options: FtpCameraOptions;
  #client: Client | null = null;
  readonly #foldersMade = new Set<string>();

  constructor(options: FtpCameraOptions) {
    this.#options = options;
  }

  /** Logs in. Rejects `stand-in-unreachable`, `stand-in-refused`. */
  async connect(): Promise<Client> {
    const { host, port, user, password, secure, signal } = this.#options;
    signal.throwIfAborted();
    if (this.#client !== null && !this.#client.closed) return this.#client;
    const client = new Client(silenceMsMax);
    this.#client = client;
    this.#foldersMade.clear();
    try {
      await client.access({ host, port, user, password, ...accessUnder(secure) });
      return client;
    } catch (failure) {
      client.close();
      signal.throwIfAborted();
      throw connectError(failure, host, port);
    }
  }

  /**
   * Sends one file, again after a break. Settles when the station has acknowledged it; rejects
   * `stand-in-upload-failed` when the retries are used up, `stand-in-unreachable`, `stand-in-refused`, or with the
   * signal's reason.
   */
  async send(upload: Upload): Promise<void> {
    const { retries, resendAfterMs, signal, onProgress } = this.#options;
    for (let left = retries; ; left--) {
      const sent: Sent = { bytes: 0, cut: false };
      try {
        return await this.#attempt(upload, left < retries, sent);
      } catch (failure) {
        this.close();
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

  /** A sign of life while nothing is shot. A connection that has gone is not an error: the next frame makes a new one. */
  async keepAlive(): Promise<void> {
    if (this.#client === null || this.#client.closed) return;
    await this.#client.send('NOOP').catch(() => this.close());
  }

  close(): void {
    this.#client?.close();
    this.#client = null;
  }

  async #attempt(upload: Upload, again: boolean, sent: Sent): Promise<void> {
    const client = await this.connect();
    await this.#makeFolders(client, upload.folder);
    const path = `${upload.folder}/${upload.file}`;
    const resumes = again && this.#options.afterBreak === 'resume';
    const start = resumes ? await heldBytes(client, path, upload.bytes.length) : 0;
    const cutBytes = again
      ? Number.POSITIVE_INFINITY
      : (upload.cutAt ?? Number.POSITIVE_INFINITY) * upload.bytes.length;
    const source = pacedSource({
      bytes: upload.bytes.subarray(start),
      bytesPerSecond: this.#options.paceBytesPerSecond,
      signal: this.#options.signal,
      onSent: (pieceBytes) => {
        const before = sent.bytes;
        sent.bytes = start + pieceBytes;
        if (sent.bytes >= cutBytes) {
          sent.cut = true;
          resetDataConnection(client);
        }
        if (isNextStep(before, sent.bytes, upload.bytes.length)) this.#report(upload, sent.bytes);
      },
    });
    if (start > 0) {
      this.#options.onProgress({
        code: 'stand-in.resuming',
        args: { name: upload.file, fromBytes: start },
      });
      await client.appendFrom(source, path);
    } else {
      await client.uploadFrom(source, path);
    }
  }

  #report(upload: Upload, sentBytes: number): void {
    const args = { name: upload.file, sentBytes, bytes: upload.bytes.length };
    this.#options.onProgress({ code: 'stand-in.sending', args });
  }

  /** MKD for each part; that a folder is already there (550 or 521) is as good as made. */
  async #makeFolders(client: Client, folder: string): Promise<void> {
    if (this.#foldersMade.has(folder)) return;
    const parts = folder.split('/').filter((part) => part !== '');
    for (let depth = 1; depth <= parts.length; depth++) {
      await client.sendIgnoringError(`MKD /${parts.slice(0, depth).join('/')}`);
    }
    this.#foldersMade.add(folder);
  }
}

/** Progress is told in hundredths: pieces are far smaller, and every listener would pay for each. */
function isNextStep(beforeBytes: number, afterBytes: number, wholeBytes: number): boolean {
  const step = (bytes: number): number => Math.floor((bytes * 100) / wholeBytes);
  return step(afterBytes) > step(beforeBytes);
}

/** What the station holds of the file (RFC 3659 SIZE); 0 where it holds nothing or says something impossible. */
async function heldBytes(client: Client, path: string, wholeBytes: number): Promise<number> {
  const held = await client.size(path).catch((failure) => {
    if (failure instanceof FTPError) return 0;
    throw failure;
  });
  return held > 0 && held < wholeBytes ? held : 0;
}

/** As a radio link breaks: no orderly end, a reset. */
function resetDataConnection(client: Client): void {
  const socket = client.ftp.dataSocket;
  if (socket !== undefined) socket.resetAndDestroy();
}

function accessUnder({ how, ca }: Secure): AccessOptions {
  if (how === 'no') return {};
  return { secure: how === 'implicit' ? how : true, secureOptions: ca === null ? {} : { ca } };
}

function connectError(failure: unknown, host: string, port: number): SetsideError {
  const refused = failure instanceof FTPError && failure.code === notLoggedIn;
  return refused
    ? new SetsideError(standInErrorCodes.refused, `${host}:${port} did not accept the user or the password`, {
        cause: failure,
        cure: 'Enter the user and password that the station prints for its camera.',
        details: { host, port },
      })
    : new SetsideError(
        standInErrorCodes.unreachable,
        `expected an FTP station at ${host}:${port}, got: ${errorMessage(failure)}`,
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
