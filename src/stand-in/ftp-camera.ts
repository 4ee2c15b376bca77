/**
 * A camera's FTP (RFC 959, passive): one connection that is kept between frames. Simple on purpose, as cameras are: it
 * makes its folders and stores.
 */
import { type AccessOptions, Client, FTPError } from 'basic-ftp';
import {
  connectError,
  type SendingCamera,
  type SendingOptions,
  type Sent,
  sendStubbornly,
  silenceMsMax,
  type Upload,
  uploadSource,
} from './sending.ts';

/** How the line is kept secret; the station's certificate is always verified. */
export interface Secure {
  /** `explicit`: FTP with AUTH TLS (RFC 4217); `implicit`: TLS from the first byte. */
  readonly how: 'no' | 'explicit' | 'implicit';
  /** The root certificate that was imported, PEM; null for those the system trusts. */
  readonly ca: string | null;
}

export interface FtpCameraOptions extends SendingOptions {
  readonly secure: Secure;
}

/** 530: not logged in (RFC 959 section 4.2). */
const notLoggedIn = 530;

export class FtpCamera implements SendingCamera {
  readonly #options: FtpCameraOptions;
  #client: Client | null = null;
  readonly #foldersMade = new Set<string>();

  constructor(options: FtpCameraOptions) {
    this.#options = options;
  }

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
      const isRefused = failure instanceof FTPError && failure.code === notLoggedIn;
      throw connectError(failure, isRefused, this.#options);
    }
  }

  send(upload: Upload): Promise<void> {
    const attempt = (again: boolean, sent: Sent): Promise<void> => this.#attempt(upload, again, sent);
    return sendStubbornly(this.#options, upload, attempt, () => this.close());
  }

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
    const cut = (): void => resetDataConnection(client);
    const source = uploadSource(this.#options, upload, { start, again, sent, cut });
    if (start > 0) await client.appendFrom(source, path);
    else await client.uploadFrom(source, path);
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
