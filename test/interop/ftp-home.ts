import { randomUUID } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type JournalRecord, type Keep, type KeepOptions, openKeep } from '../../src/keep/index.ts';
import { type FtpDoor, type FtpDoorOptions, type LineReport, startFtpDoor } from '../../src/receive/index.ts';

export interface HomeHall extends AsyncDisposable {
  readonly door: FtpDoor;
  readonly keep: Keep;
  readonly home: string;
  readonly reports: LineReport[];
  /** Every record of the journal so far. */
  records(): Promise<JournalRecord[]>;
}

/** A door in front of a home on this computer's disk. Everybody who knows the password `right` is the camera `cam1`. */
export async function openHome(
  options: Partial<KeepOptions> = {},
  limits: FtpDoorOptions['limits'] = {},
): Promise<HomeHall> {
  const home = options.home ?? (await mkdtemp(join(tmpdir(), 'setside-ftp-home-')));
  const keep = await openKeep({
    home,
    inspect: async () => ({ kind: 'unknown' }),
    newId: randomUUID,
    now: Date.now,
    jobOf: () => 'QM-26',
    diskFloorBytes: 0,
    hashWorkers: 0,
    ...options,
  });
  return inFrontOf(keep, home, limits);
}

/** A door in front of a keep that is open already. Closes it too. */
export async function inFrontOf(
  keep: Keep,
  home: string,
  limits: FtpDoorOptions['limits'] = {},
): Promise<HomeHall> {
  const reports: LineReport[] = [];
  const folder = keep.folderOf('cam1');
  const door = await startFtpDoor(
    {
      host: '127.0.0.1',
      port: 0,
      passive: { from: 0, to: 0 },
      limits: { loginDelayMs: 20, loginDelayMaxMs: 80, lingerMs: 200, ...limits },
    },
    { admit: async ({ password }) => (password === 'right' ? { name: 'cam1', folder } : null) },
    (report) => reports.push(report),
  );
  return {
    door,
    keep,
    home,
    reports,
    records: async () => {
      const records: JournalRecord[] = [];
      for await (const record of keep.records()) records.push(record);
      return records;
    },
    [Symbol.asyncDispose]: async () => {
      await door.close();
      await keep.close();
      await rm(home, { recursive: true, force: true });
    },
  };
}
