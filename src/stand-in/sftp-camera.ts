/** A camera's SFTP (version 3): one connection and one session that are kept between frames. */
import ssh2, { type Client, type SFTPWrapper } from 'ssh2';
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

interface Line {
  readonly client: Client;
  readonly sftp: SFTPWrapper;
  /** Rejects when the line goes: ssh2 tells those who wait for an answer nothing. */
  readonly lost: Promise<never>;
}

/**
 * Takes any host key unless it is told which: a camera that is made up has nobody who could compare fingerprints.
 */
export class SftpCamera implements SendingCamera {
  readonly #options: SendingOptions;
  readonly #takesHostKey: (key: Uint8Array) => boolean;
  #line: Line | null = null;

  /** `takesHostKey` is asked with the station's host key, as it stands on the line (RFC 4253 section 6.6), before any password is sent. */
  constructor(options: SendingOptions, takesHostKey: (key: Uint8Array) => boolean = () => true) {
    this.#options = options;
    this.#takesHostKey = takesHostKey;
  }

  async connect(): Promise<Line> {
    const { signal } = this.#options;
    signal.throwIfAborted();
    if (this.#line !== null) return this.#line;
    const client = new ssh2.Client();
    try {
      const line = await this.#open(client);
      this.#line = line;
      client.once('close', () => {
        if (this.#line === line) this.#line = null;
      });
      return line;
    } catch (failure) {
      client.destroy();
      signal.throwIfAborted();
      throw connectError(failure, isRefusal(failure), this.#options);
    }
  }

  send(upload: Upload): Promise<void> {
    const attempt = (again: boolean, sent: Sent): Promise<void> => this.#attempt(upload, again, sent);
    return sendStubbornly(this.#options, upload, attempt, () => this.close());
  }

  /** SSH asks the other side by itself. */
  async keepAlive(): Promise<void> {}

  close(): void {
    this.#line?.client.end();
    this.#line = null;
  }

  async #open(client: Client): Promise<Line> {
    const { host, port, user: username, password, silenceMs = silenceMsMax } = this.#options;
    const lost = new Promise<never>((_, reject) => {
      client.on('error', reject);
      client.on('close', () => reject(new Error('the connection was closed')));
    });
    lost.catch(() => {});
    const ready = new Promise<void>((resolve) => client.once('ready', resolve));
    client.connect({
      ...{ host, port, username, password, readyTimeout: silenceMs, keepaliveInterval: 15_000 },
      hostVerifier: (key: Buffer): boolean => this.#takesHostKey(key),
    });
    await Promise.race([ready, lost]);
    const sftp = await Promise.race([asked<SFTPWrapper>((done) => client.sftp(done)), lost]);
    return { client, sftp, lost };
  }

  async #attempt(upload: Upload, again: boolean, sent: Sent): Promise<void> {
    const line = await this.connect();
    await Promise.race([this.#upload(line, upload, again, sent), line.lost]);
  }

  async #upload({ client, sftp }: Line, upload: Upload, again: boolean, sent: Sent): Promise<void> {
    await makeFolders(sftp, upload.folder);
    const path = `${upload.folder}/${upload.file}`;
    const resumes = again && this.#options.afterBreak === 'resume';
    let at = resumes ? await heldBytes(sftp, path, upload.bytes.length) : 0;
    const handle = await asked<Buffer>((done) => sftp.open(path, at > 0 ? 'r+' : 'w', done));
    const cut = (): void => void client.destroy();
    const source = uploadSource(this.#options, upload, { start: at, again, sent, cut });
    for await (const piece of source) {
      // The source hands over what it was given: bytes.
      const bytes = piece as Buffer;
      await asked<void>((done) => sftp.write(handle, bytes, 0, bytes.length, at, done));
      at += bytes.length;
    }
    await asked<void>((done) => sftp.close(handle, done));
  }
}

/** What ssh2 calls back with, as a promise. */
function asked<Value>(
  ask: (done: (failure: Error | null | undefined, value?: Value) => void) => void,
): Promise<Value> {
  return new Promise((resolve, reject) => {
    ask((failure, value) => {
      if (failure) reject(failure);
      // Without a failure ssh2 gives the value that belongs to the question.
      else resolve(value as Value);
    });
  });
}

/** That a folder is already there is as good as made. */
async function makeFolders(sftp: SFTPWrapper, folder: string): Promise<void> {
  const parts = folder.split('/').filter((part) => part !== '');
  for (let depth = 1; depth <= parts.length; depth++) {
    const path = `/${parts.slice(0, depth).join('/')}`;
    await asked<void>((done) => sftp.mkdir(path, done)).catch(() => {});
  }
}

/** What the station holds of the file; 0 where it holds nothing or says something impossible. */
async function heldBytes(sftp: SFTPWrapper, path: string, wholeBytes: number): Promise<number> {
  const size = await asked<{ size: number }>((done) => sftp.stat(path, done)).then(
    (found) => found.size,
    () => 0,
  );
  return size > 0 && size < wholeBytes ? size : 0;
}

function isRefusal(failure: unknown): boolean {
  return failure instanceof Error && 'level' in failure && failure.level === 'client-authentication';
}
