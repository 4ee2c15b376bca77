import { errorCode } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import {
  type DismissReason,
  type DoorKeeper,
  type HostKeyPrint,
  type KeyKeeper,
  printHostKey,
  type ReportLine,
  type SharedBooks,
  startSftpDoor,
} from '../receive/index.ts';
import type { StationOptions } from './core/options.ts';
import { openHostKeys } from './host-keys.ts';
import { withHolder } from './port-holder.ts';
import { openServed } from './serve-private.ts';

/** The SFTP door, open or shut. */
export interface SftpCameraDoor {
  /** Null while it is shut. */
  readonly port: number | null;
  readonly troubles: readonly Finding[];
  /** By which a person knows the station's keys; of the strongest first. */
  readonly hostKeys: readonly HostKeyPrint[];
  dismiss(camera: string, why: DismissReason): void;
  close(): Promise<void>;
}

/**
 * Opens the SFTP door. A port that somebody chose is opened or refused; where nobody did and another program has it,
 * the door stays shut and says so. Rejects `port-in-use`, `port-forbidden`, `bad-settings`.
 */
export async function openSftpDoor(
  { bind, sftp: { port, mayStayShut, oldCameras } }: StationOptions,
  keysFolder: string,
  keeper: DoorKeeper & KeyKeeper,
  report: ReportLine,
  shared: SharedBooks,
): Promise<SftpCameraDoor> {
  const hostKeys = await openHostKeys(keysFolder, oldCameras);
  const prints = hostKeys.map(printHostKey).filter((print) => print !== null);
  try {
    const door = await openServed(bind, (place) =>
      startSftpDoor({ ...place, port, hostKeys, oldCameras, shared }, keeper, report),
    );
    return {
      port: door.port,
      troubles: [],
      hostKeys: prints,
      dismiss: (camera, why) => door.dismiss(camera, why),
      close: () => door.close(),
    };
  } catch (thrown) {
    if (!mayStayShut || errorCode(thrown) !== 'port-in-use')
      throw await withHolder(thrown, port, '--sftp PORT');
    const trouble = { code: 'line.port-in-use', args: { door: 'SFTP', port } };
    return { port: null, troubles: [trouble], hostKeys: prints, dismiss: () => {}, close: async () => {} };
  }
}
