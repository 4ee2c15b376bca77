import { errorCode } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import { type DoorKeeper, type FtpDoor, type ReportLine, startFtpDoor } from '../receive/index.ts';
import type { StationOptions } from './core/options.ts';
import { openServed } from './serve-private.ts';

/** An open FTP door, and what had to be put up with to open it. */
export interface CameraDoor {
  readonly port: number;
  readonly troubles: readonly Finding[];
  dismiss(camera: string): void;
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
      const dismiss = (camera: string): void => door.dismiss(camera);
      return { port: door.port, troubles, dismiss, close: () => door.close() };
    } catch (thrown) {
      if (next === undefined) throw thrown;
      troubles.push(refusedPort(errorCode(thrown), port, next));
    }
  }
  throw new Error('there is always at least one port to try');
}

function openAt(
  { bind, passive }: StationOptions,
  port: number,
  keeper: DoorKeeper,
  report: ReportLine,
): Promise<FtpDoor> {
  return openServed(bind, (place) => startFtpDoor({ ...place, port, passive }, keeper, report));
}

function refusedPort(code: string, port: number, instead: number): Finding {
  return code === 'port-in-use'
    ? { code: 'line.port-taken', args: { door: 'FTP', port, instead } }
    : { code: 'line.port-forbidden', args: { door: 'FTP', port, instead } };
}
