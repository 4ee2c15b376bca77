import { constants, randomBytes } from 'node:crypto';
import { Server, type Socket } from 'node:net';
import { createSecureContext, type SecureContext, TLSSocket, type TLSSocketOptions } from 'node:tls';
import type { ResolvedTlsOptions } from './options.ts';
import { SecuredData } from './secured-data.ts';

/**
 * TLS 1.2 suites, all with forward secrecy (RFC 9325 section 4.2); the camera chooses, since it knows what it does
 * quickly. The two with CBC are for stacks that have nothing better. TLS 1.3 brings its own.
 */
const ciphers = [
  'TLS_AES_128_GCM_SHA256',
  'TLS_AES_256_GCM_SHA384',
  'TLS_CHACHA20_POLY1305_SHA256',
  'ECDHE-RSA-AES128-GCM-SHA256',
  'ECDHE-RSA-AES256-GCM-SHA384',
  'ECDHE-RSA-CHACHA20-POLY1305',
  'ECDHE-RSA-AES128-SHA256',
  'ECDHE-RSA-AES128-SHA',
].join(':');

/**
 * How long a session may be resumed: as long as RFC 8446 section 4.6.1 allows. A camera may stay logged in all day, and
 * its keys die with the control connection anyway.
 */
const sessionTimeoutS = 604_800;

/** Sessions remembered for a client that knows no tickets; it resumes the last one. */
const sessionsMax = 8;

/**
 * The TLS side of one client: its control connection and the data connections that belong to it.
 *
 * Each client has ticket keys and sessions of its own. So a data connection that resumes a session can only resume one
 * of this very client's, and {@link TLSSocket.isSessionReused} proves that both ends are the same (RFC 4217 section
 * 10.2 leaves open how); with keys shared by all, another client's session would pass.
 */
export class TlsPeer {
  readonly #options: TLSSocketOptions;

  constructor(options: ResolvedTlsOptions) {
    this.#options = {
      isServer: true,
      requestCert: false,
      secureContext: contextFor(options),
      // Node asks a server for sessions by their number (TLS 1.2 without tickets). This one never listens.
      server: sessionShelf(),
    };
  }

  /** Wraps the control connection, whose reading is stopped. The handshake begins by itself. */
  control(socket: Socket): TLSSocket {
    return new TLSSocket(socket, this.#options);
  }

  /** Wraps an accepted data connection, still paused and unread. */
  data(socket: Socket): SecuredData {
    return new SecuredData(socket, this.#options);
  }
}

function contextFor({ identity, minVersion }: ResolvedTlsOptions): SecureContext {
  const { key, chain } = identity.credentials;
  return createSecureContext({
    key,
    cert: chain,
    ciphers,
    minVersion,
    ticketKeys: randomBytes(48),
    sessionIdContext: randomBytes(16).toString('hex'),
    sessionTimeout: sessionTimeoutS,
    // A client that wants to renegotiate is told no (RFC 9325 section 3.5); each time would cost an RSA signature.
    secureOptions: constants.SSL_OP_NO_RENEGOTIATION | constants.SSL_OP_NO_COMPRESSION,
  });
}

function sessionShelf(): Server {
  const sessions = new Map<string, Buffer>();
  const server = new Server();
  server.on('newSession', (id: Buffer, session: Buffer, done: () => void) => {
    sessions.set(id.toString('hex'), session);
    for (const oldest of sessions.keys()) {
      if (sessions.size <= sessionsMax) break;
      sessions.delete(oldest);
    }
    done();
  });
  server.on('resumeSession', (id: Buffer, done: (trouble: null, session: Buffer | null) => void) => {
    done(null, sessions.get(id.toString('hex')) ?? null);
  });
  return server;
}
