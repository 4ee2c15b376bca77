import type { Authority } from '../authority/index.ts';
import { errorCode } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import {
  type DismissReason,
  type DoorKeeper,
  type FtpDoor,
  type ReportLine,
  type SharedBooks,
  startFtpDoor,
  type TlsOptions,
} from '../receive/index.ts';
import type { StationOptions } from './core/options.ts';
import { withHolder } from './port-holder.ts';
import { openServed } from './serve-private.ts';

/** An open FTP door, and what had to be put up with to open it. */
export interface CameraDoor {
  readonly port: number;
  readonly troubles: readonly Finding[];
  dismiss(camera: string, why: DismissReason): void;
  close(): Promise<void>;
}

/** The FTPS door, open or shut. */
export interface FtpsCameraDoor extends Omit<CameraDoor, 'port'> {
  /** Null while it is shut. */
  readonly port: number | null;
}

/**
 * Opens the FTP door at the first of the wished ports that the system gives. A port that somebody chose is opened or
 * refused, never quietly replaced: then there is only one in the list. Rejects `port-in-use`, `port-forbidden`.
 * Without an authority it speaks in clear only.
 */
export function openFtpDoor(
  options: StationOptions,
  keeper: DoorKeeper,
  report: ReportLine,
  authority: Authority | null,
  shared: SharedBooks,
): Promise<CameraDoor> {
  const tls = authority === null ? null : tlsOptions(options, authority, 'explicit');
  return openAtFirst('FTP', options.ftpPorts, (port) => openAt(options, port, tls, keeper, report, shared));
}

/**
 * Opens the door for TLS from the first byte. Where nobody chose its port, a door that cannot be opened stays shut and
 * says so. Rejects `port-in-use`, `port-forbidden`.
 */
export async function openFtpsDoor(
  options: StationOptions,
  keeper: DoorKeeper,
  report: ReportLine,
  authority: Authority | null,
  shared: SharedBooks,
): Promise<FtpsCameraDoor> {
  const { ports, mayStayShut } = options.ftps;
  if (authority === null) return shutDoor([]);
  const tls = tlsOptions(options, authority, 'implicit');
  try {
    return await openAtFirst('FTPS', ports, (port) => openAt(options, port, tls, keeper, report, shared));
  } catch (thrown) {
    if (!mayStayShut || errorCode(thrown) !== 'port-in-use') throw thrown;
    return shutDoor([{ code: 'line.port-in-use', args: { door: 'FTPS', port: ports.at(-1) ?? 0 } }]);
  }
}

function shutDoor(troubles: readonly Finding[]): FtpsCameraDoor {
  return { port: null, troubles, dismiss: () => {}, close: async () => {} };
}

async function openAtFirst(
  door: 'FTP' | 'FTPS',
  ports: readonly number[],
  open: (port: number) => Promise<FtpDoor>,
): Promise<CameraDoor> {
  const troubles: Finding[] = [];
  for (const [index, port] of ports.entries()) {
    const next = ports[index + 1];
    try {
      const opened = await open(port);
      const dismiss = (camera: string, why: DismissReason): void => opened.dismiss(camera, why);
      return { port: opened.port, troubles, dismiss, close: () => opened.close() };
    } catch (thrown) {
      if (next === undefined) throw await withHolder(thrown, port, `--${door.toLowerCase()} PORT`);
      troubles.push(refusedPort(door, errorCode(thrown), port, next));
    }
  }
  throw new Error('there is always at least one port to try');
}

function openAt(
  { bind, passive }: StationOptions,
  port: number,
  tls: TlsOptions | null,
  keeper: DoorKeeper,
  report: ReportLine,
  shared: SharedBooks,
): Promise<FtpDoor> {
  const options = { port, passive, shared, ...(tls === null ? {} : { tls }) };
  return openServed(bind, (place) => startFtpDoor({ ...place, ...options }, keeper, report));
}

function tlsOptions({ ftps }: StationOptions, identity: Authority, start: TlsOptions['start']): TlsOptions {
  const { encryptedOnly, minVersion, resumption } = ftps;
  return { identity, start, clearText: encryptedOnly ? 'refused' : 'allowed', minVersion, resumption };
}

function refusedPort(door: string, code: string, port: number, instead: number): Finding {
  return code === 'port-in-use'
    ? { code: 'line.port-taken', args: { door, port, instead } }
    : { code: 'line.port-forbidden', args: { door, port, instead } };
}
