import { errorCode, SetsideError } from '../base/index.ts';
import { createWebApp } from './assembly.ts';
import { defaultWebLimits, type WebLimits } from './core/limits.ts';
import type { StationDesk } from './desk.ts';
import type { DoorErrorCode } from './errors.ts';
import { type LinkDoor, type LinkDoorOptions, openLinkDoor } from './link-door.ts';
import type { WebApp } from './web-app.ts';
import { noWebLog, type WebLog } from './web-log.ts';

export interface WebDoorOptions {
  /** Address to listen on: `127.0.0.1` for this computer alone, `0.0.0.0` or `::` for all. */
  readonly host: string;
  /** 0 means any free one. */
  readonly port: number;
  /** Directory of the built page, absolute; it may appear while the station runs. */
  readonly pageDir: string;
  /** Version of Setside. */
  readonly version: string;
  /** Names and addresses of this computer that another device may call it by. */
  readonly ownHosts?: () => readonly string[];
  readonly limits?: Partial<WebLimits>;
}

export interface WebDoor {
  /** Opens the port for devices with a link. Rejects with the system's error. */
  openForLinks(options: LinkDoorOptions): Promise<LinkDoor>;
  readonly port: number;
  /** Where the operator opens the page, e.g. `http://127.0.0.1:8460`. */
  readonly url: string;
  /** Ends event streams at once, lets answers under way end for two seconds, stops listening. May be called twice. */
  close(): Promise<void>;
}

/**
 * Opens the web door and resolves when it listens. Rejects with a `SetsideError`: `port-in-use`, `port-forbidden`,
 * `address-unknown`.
 */
export async function startWebDoor(
  options: WebDoorOptions,
  desk: StationDesk,
  log: WebLog = noWebLog,
): Promise<WebDoor> {
  const app = await createWebApp(options, desk, log);
  try {
    await app.listen({ host: options.host, port: options.port });
  } catch (error) {
    await app.close();
    throw listenError(error, options);
  }
  const port = boundPort(app);
  const limits = { ...defaultWebLimits, ...options.limits };
  return {
    port,
    url: `http://${operatorHost(options.host)}:${port}`,
    openForLinks: (wanted) => openLinkDoor(app, wanted, limits),
    close: () => closeSoon(app),
  };
}

/** Answers under way when the station stops get this long; a download goes on from where it broke, by a range. */
const graceMs = 2000;

/** A connection that had its answer is kept open by its client; while the door closes they are swept this often. */
const sweepMs = 50;

async function closeSoon(app: WebApp): Promise<void> {
  const sweep = setInterval(() => app.server.closeIdleConnections(), sweepMs);
  const end = setTimeout(() => app.server.closeAllConnections(), graceMs);
  try {
    await app.close();
  } finally {
    clearInterval(sweep);
    clearTimeout(end);
  }
}

function boundPort(app: WebApp): number {
  const address = app.server.address();
  if (address === null || typeof address === 'string') throw new Error('the web door listens on no port');
  return address.port;
}

/** The operator's browser runs on this computer: it comes by the loopback address, whatever else is bound. */
function operatorHost(host: string): string {
  if (host === '::1') return '[::1]';
  return host === 'localhost' ? 'localhost' : '127.0.0.1';
}

function listenError(error: unknown, { host, port }: WebDoorOptions): unknown {
  const code = (
    {
      EADDRINUSE: 'port-in-use',
      EACCES: 'port-forbidden',
      EADDRNOTAVAIL: 'address-unknown',
    } satisfies Record<string, DoorErrorCode> as Record<string, DoorErrorCode>
  )[errorCode(error)];
  if (code === undefined) return error;
  return new SetsideError(
    code,
    `web door: expected to listen on ${host} port ${port}, got ${errorCode(error)}`,
    {
      cause: error,
      cure: cures[code],
      details: { host, port },
    },
  );
}

const cures: Readonly<Record<DoorErrorCode, string>> = {
  'port-in-use': 'Close the program that uses the port, or choose another with --web.',
  'port-forbidden': 'Choose a port above 1023 with --web.',
  'address-unknown': 'Choose an address of this computer with --bind.',
};
