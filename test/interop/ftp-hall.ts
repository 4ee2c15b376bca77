import {
  type DoorKeeper,
  type FtpDoor,
  type FtpDoorOptions,
  type LineReport,
  startFtpDoor,
} from '../../src/receive/index.ts';
import { MemoryFolder, type MemoryFolderOptions } from '../../src/receive/testing/memory-folder.ts';

export interface Hall {
  readonly door: FtpDoor;
  readonly folder: MemoryFolder;
  readonly reports: LineReport[];
  /** Codes of the reports so far. */
  codes(): string[];
}

/** Waits that tests can afford. Everything else is as delivered. */
const quick: FtpDoorOptions['limits'] = { loginDelayMs: 20, loginDelayMaxMs: 80, lingerMs: 200 };

/** A door in front of a folder in memory: user `camera` with password `right` may come in. */
export async function openHall(
  options: Partial<FtpDoorOptions> & { readonly folder?: MemoryFolderOptions } = {},
): Promise<Hall> {
  const { folder: folderOptions, limits, ...doorOptions } = options;
  const folder = new MemoryFolder(folderOptions);
  const reports: LineReport[] = [];
  const keeper: DoorKeeper = {
    admit: async ({ user, password }) =>
      user === 'camera' && password === 'right' ? { name: 'Camera A', folder } : null,
  };
  const door = await startFtpDoor(
    {
      host: '127.0.0.1',
      port: 0,
      passive: { from: 0, to: 0 },
      ...doorOptions,
      limits: { ...quick, ...limits },
    },
    keeper,
    (report) => reports.push(report),
  );
  return { door, folder, reports, codes: () => reports.map(({ finding }) => finding.code) };
}
