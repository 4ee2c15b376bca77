import { createHash, timingSafeEqual } from 'node:crypto';
import ssh2, { type Client, type SFTPWrapper } from 'ssh2';
import type { DestinationPlace } from '../../contract/index.ts';
import { SendFailure } from '../core/failure.ts';
import { connectFailure } from './failures.ts';

export type SftpAddress = Extract<DestinationPlace, { readonly kind: 'sftp' }>;

/** A connection that is open. */
export interface SftpLine {
  readonly sftp: SFTPWrapper;
  /** Rejects when the line goes: ssh2 tells those who wait for an answer nothing. */
  readonly lost: Promise<never>;
  /** `fsync@openssh.com` and `statvfs@openssh.com`, OpenSSH's PROTOCOL file, section 4; false after a refusal. */
  readonly can: { sync: boolean };
  close(): void;
}

/**
 * Logs in. The server's key is looked at before anything is said of who we are: one that is not known, or another than the one
 * that is, gets no log-in. `shown` hears its fingerprint in any case.
 */
export async function openSftpLine(
  { host, port, user, logInBy, hostKey }: SftpAddress,
  secret: string,
  silenceMsMax: number,
  signal: AbortSignal,
  shown: (fingerprint: string) => void,
): Promise<SftpLine> {
  signal.throwIfAborted();
  const client: Client = new ssh2.Client();
  const stop = (): void => void client.destroy();
  signal.addEventListener('abort', stop, { once: true });
  let refusal: SendFailure | null = null;
  const lost = new Promise<never>((_, reject) => {
    client.on('error', (thrown) => reject(refusal ?? connectFailure(thrown, host)));
    client.on('close', () => reject(refusal ?? new SendFailure('again', 'send.line-cut', { host })));
  });
  lost.catch(() => {});
  client.once('close', () => signal.removeEventListener('abort', stop));
  const isKnown = (key: Buffer): boolean => {
    const fingerprint = fingerprintOf(key);
    shown(fingerprint);
    refusal = keyRefusal(host, hostKey, fingerprint);
    return refusal === null;
  };
  try {
    const ready = new Promise<void>((resolve) => client.once('ready', resolve));
    client.connect({
      host,
      port,
      username: user,
      ...(logInBy === 'key' ? { privateKey: secret } : { password: secret }),
      hostVerifier: isKnown,
      readyTimeout: silenceMsMax,
      keepaliveInterval: Math.ceil(silenceMsMax / 3),
      keepaliveCountMax: 3,
    });
    await Promise.race([ready, lost]);
    const sftp = await Promise.race([asked<SFTPWrapper>((done) => client.sftp(done)), lost]);
    return { sftp, lost, can: { sync: true }, close: () => void client.end() };
  } catch (thrown) {
    client.destroy();
    signal.throwIfAborted();
    throw thrown instanceof SendFailure ? thrown : connectFailure(thrown, host);
  }
}

/** What ssh2 calls back with, as a promise. */
export function asked<Value>(
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

/** As `ssh-keygen -l` writes it: base64 without its end. */
function fingerprintOf(key: Buffer): string {
  return `SHA256:${createHash('sha256').update(key).digest('base64').replace(/=+$/, '')}`;
}

function keyRefusal(host: string, known: string | null, shown: string): SendFailure | null {
  if (known === null) return new SendFailure('stop', 'send.host-key-unknown', { host, shown });
  const [a, b] = [Buffer.from(known), Buffer.from(shown)];
  if (a.length === b.length && timingSafeEqual(a, b)) return null;
  return new SendFailure('stop', 'send.host-key-other', { host, shown, known });
}
