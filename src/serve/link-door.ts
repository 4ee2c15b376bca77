import { constants } from 'node:crypto';
import {
  createServer as createHttpServer,
  type Server as HttpServer,
  type IncomingMessage,
  type ServerResponse,
} from 'node:http';
import { createServer as createHttpsServer, type Server as HttpsServer } from 'node:https';
import { createServer, type Server, type Socket } from 'node:net';
import { answerBrokenRequest } from './broken-request.ts';
import { placeOf } from './core/budget.ts';
import type { WebLimits } from './core/limits.ts';
import { noteOutside } from './passage.ts';
import type { WebApp } from './web-app.ts';
import { connectionTimeoutMs, headersTimeoutMs, keepAliveTimeoutMs, requestTimeoutMs } from './web-times.ts';

export interface LinkDoorOptions {
  readonly host: string;
  /** 0 means any free one. */
  readonly port: number;
  /** Whether a connection that came to this address of the computer is served; all are where it is left out. */
  readonly mayServe?: (localAddress: string) => boolean;
  /** What to show, asked anew for each connection; null where the station speaks no TLS. */
  readonly identity: { readonly credentials: { readonly key: string; readonly chain: string } } | null;
}

export interface LinkDoor {
  readonly port: number;
  /** Ends every connection and stops listening. May be called twice. */
  close(): Promise<void>;
}

/** The first byte of a TLS record that begins a handshake (RFC 8446 section 5.1). No HTTP method begins so. */
const tlsHandshake = 0x16;

/**
 * Opens the port that other devices come in by: TLS, and HTTP in clear on the same port, told apart by their first byte.
 * One port is one thing to type and one hole in a firewall, and an address typed without `https` is answered instead of
 * broken. Rejects with the system's error.
 */
export async function openLinkDoor(
  app: WebApp,
  options: LinkDoorOptions,
  limits: WebLimits,
): Promise<LinkDoor> {
  const door = new OpenLinkDoor(app, options, limits);
  await door.listen();
  return door;
}

class OpenLinkDoor implements LinkDoor {
  readonly #options: LinkDoorOptions;
  readonly #limits: WebLimits;
  readonly #front: Server;
  readonly #clear: HttpServer;
  readonly #secure: HttpsServer | null;
  readonly #places = new Map<Socket, string>();
  #shown: object | null = null;

  constructor(app: WebApp, options: LinkDoorOptions, limits: WebLimits) {
    this.#options = options;
    this.#limits = limits;
    const handle = (request: IncomingMessage, response: ServerResponse): void => {
      noteOutside(request);
      app.routing(request, response);
    };
    this.#clear = prepared(createHttpServer(times, handle));
    this.#secure =
      options.identity === null
        ? null
        : prepared(createHttpsServer({ ...times, ...tls, handshakeTimeout: limits.handshakeMs }, handle));
    this.#front = createServer((socket) => this.#receive(socket));
    this.#front.maxConnections = limits.connectionsMax;
  }

  get port(): number {
    const address = this.#front.address();
    if (address === null || typeof address === 'string')
      throw new Error('the door for links listens on no port');
    return address.port;
  }

  listen(): Promise<void> {
    const { host, port } = this.#options;
    return new Promise((resolve, reject) => {
      this.#front.once('error', reject);
      this.#front.listen({ host, port }, () => {
        this.#front.off('error', reject);
        this.#front.on('error', () => {});
        resolve();
      });
    });
  }

  async close(): Promise<void> {
    const closed = new Promise<void>((resolve) => {
      this.#front.close(() => resolve());
    });
    // These never listened themselves; this stops their clocks.
    this.#clear.close(() => {});
    this.#secure?.close(() => {});
    for (const socket of this.#places.keys()) socket.destroy();
    await closed;
  }

  #receive(socket: Socket): void {
    socket.on('error', () => {});
    const { localAddress = '', remoteAddress = '' } = socket;
    const place = placeOf(remoteAddress);
    const others = [...this.#places.values()].filter((each) => each === place).length;
    const isServed = this.#options.mayServe?.(localAddress) ?? true;
    if (!isServed || others >= this.#limits.connectionsPerAddressMax) {
      socket.destroy();
      return;
    }
    this.#places.set(socket, place);
    socket.once('close', () => this.#places.delete(socket));
    const late = setTimeout(() => socket.destroy(), this.#limits.handshakeMs);
    socket.once('close', () => clearTimeout(late));
    socket.once('data', (first: Buffer) => {
      clearTimeout(late);
      socket.pause();
      socket.unshift(first);
      this.#pass(socket, first[0] === tlsHandshake);
      process.nextTick(() => socket.resume());
    });
  }

  #pass(socket: Socket, isTls: boolean): void {
    if (!isTls) this.#clear.emit('connection', socket);
    else if (this.#secure === null) socket.destroy();
    else this.#renewed(this.#secure).emit('connection', socket);
  }

  /** A certificate that was renewed is shown from the next connection on. */
  #renewed(secure: HttpsServer): HttpsServer {
    const credentials = this.#options.identity?.credentials;
    if (credentials !== undefined && credentials !== this.#shown) {
      secure.setSecureContext({ ...tls, key: credentials.key, cert: credentials.chain });
      this.#shown = credentials;
    }
    return secure;
  }
}

const times = {
  headersTimeout: headersTimeoutMs,
  requestTimeout: requestTimeoutMs,
  keepAliveTimeout: keepAliveTimeoutMs,
  // A client that waits for no answer gets no more than this at once.
  maxHeaderSize: 16 * 1024,
};

/** TLS 1.2 and 1.3 with forward secrecy (RFC 9325 section 4.2); no renegotiation. */
const tls = {
  minVersion: 'TLSv1.2',
  ciphers:
    'TLS_AES_128_GCM_SHA256:TLS_AES_256_GCM_SHA384:TLS_CHACHA20_POLY1305_SHA256:ECDHE+AESGCM:ECDHE+CHACHA20',
  secureOptions: constants.SSL_OP_NO_RENEGOTIATION | constants.SSL_OP_NO_COMPRESSION,
  ALPNProtocols: ['http/1.1'],
} as const;

/** A server that is handed its connections; it keeps its own clocks for slow requests only once it "listens". */
function prepared<Kind extends HttpServer | HttpsServer>(server: Kind): Kind {
  server.setTimeout(connectionTimeoutMs);
  server.on('clientError', (error: Error, socket) => {
    if ('remoteAddress' in socket) answerBrokenRequest(error, socket as Socket);
    else socket.destroy();
  });
  server.emit('listening');
  return server;
}
