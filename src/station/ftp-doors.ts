import { errorCode } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import { type DoorKeeper, type FtpDoor, type ReportLine, startFtpDoor } from '../receive/index.ts';
import { isPrivateAddress } from './core/addresses.ts';
import type { StationOptions } from './core/options.ts';

/** An open FTP door, and what had to be put up with to open it. */
export interface CameraDoor {
  readonly port: number;
  readonly troubles: readonly Finding[];
  close(): Promise<void>;
}

/**
 * Opens the FTP door at the first of the wished ports that the system gives. A port that somebody chose is opened or
 * refused, never quietly replaced: then there is only one in the list. Rejects `port-in-use`, `port-forbidden`.
 */
export async function openFtpDoor(
  options: StationOptions,
  keeper: DoorKeeper,
  report: ReportLine,
): Promise<CameraDoor> {
  const troubles: Finding[] = [];
  for (const [index, port] of options.ftpPorts.entries()) {
    const next = options.ftpPorts[index + 1];
    try {
      const door = await openAt(options, port, keeper, report);
      return { port: door.port, troubles, close: () => door.close() };
    } catch (thrown) {
      if (next === undefined) throw thrown;
      troubles.push(refusedPort(errorCode(thrown), port, next));
    }
  }
  throw new Error('there is always at least one port to try');
}

/** Everywhere, but served on private addresses only; an address that was named is served whatever it is. */
async function openAt(
  { bind, passive }: StationOptions,
  port: number,
  keeper: DoorKeeper,
  report: ReportLine,
): Promise<FtpDoor> {
  if (bind !== null) return startFtpDoor({ host: bind, port, passive }, keeper, report);
  try {
    return await startFtpDoor({ host: '::', port, passive, mayServe: isPrivateAddress }, keeper, report);
  } catch (thrown) {
    // A system without IPv6 knows no "::".
    if (!['EAFNOSUPPORT', 'EADDRNOTAVAIL', 'EINVAL'].includes(errorCode(thrown))) throw thrown;
    return startFtpDoor({ host: '0.0.0.0', port, passive, mayServe: isPrivateAddress }, keeper, report);
  }
}

function refusedPort(code: string, port: number, instead: number): Finding {
  return code === 'port-in-use'
    ? { code: 'line.port-taken', args: { door: 'FTP', port, instead } }
    : { code: 'line.port-forbidden', args: { door: 'FTP', port, instead } };
}
