import type { TLSSocket } from 'node:tls';
import { errorCode } from '../../../../base/index.ts';

/** Why a handshake came to nothing; `words` makes the cause and the cure of it. */
export type HandshakeTrouble =
  | 'slow'
  | 'left'
  | 'old-version'
  | 'no-cipher'
  | 'not-tls'
  | 'unknown-authority'
  | 'bad-certificate'
  | 'other';

/** Waits for the handshake, at most `waitMs`; null once it is done. The caller destroys the socket where it is not. */
export function handshake(tls: TLSSocket, waitMs: number): Promise<HandshakeTrouble | null> {
  return new Promise((resolve) => {
    const patience = setTimeout(() => end('slow'), waitMs);
    const done = (): void => end(null);
    const failed = (trouble: unknown): void => end(troubleOf(errorCode(trouble)));
    const left = (): void => end('left');
    const end = (trouble: HandshakeTrouble | null): void => {
      clearTimeout(patience);
      tls.off('secure', done).off('error', failed).off('close', left).off('end', left);
      resolve(trouble);
    };
    tls.on('secure', done).on('error', failed).on('close', left).on('end', left);
  });
}

/** OpenSSL's reasons, as Node writes them into `code`; the alerts (RFC 8446 section 6.2) are what the client said. */
const troubles: Readonly<Record<string, HandshakeTrouble>> = {
  ERR_SSL_UNSUPPORTED_PROTOCOL: 'old-version',
  ERR_SSL_VERSION_TOO_LOW: 'old-version',
  ERR_SSL_TLSV1_ALERT_PROTOCOL_VERSION: 'old-version',
  ERR_SSL_NO_SHARED_CIPHER: 'no-cipher',
  ERR_SSL_NO_SUITABLE_SIGNATURE_ALGORITHM: 'no-cipher',
  ERR_SSL_WRONG_VERSION_NUMBER: 'not-tls',
  ERR_SSL_HTTP_REQUEST: 'not-tls',
  ERR_SSL_UNEXPECTED_MESSAGE: 'not-tls',
  ERR_SSL_TLSV1_ALERT_UNKNOWN_CA: 'unknown-authority',
  ERR_SSL_SSLV3_ALERT_BAD_CERTIFICATE: 'bad-certificate',
  ERR_SSL_SSLV3_ALERT_CERTIFICATE_UNKNOWN: 'bad-certificate',
  ERR_SSL_SSLV3_ALERT_CERTIFICATE_EXPIRED: 'bad-certificate',
  ERR_SSL_SSLV3_ALERT_UNSUPPORTED_CERTIFICATE: 'bad-certificate',
  ECONNRESET: 'left',
  EPIPE: 'left',
};

function troubleOf(code: string): HandshakeTrouble {
  return troubles[code] ?? 'other';
}
