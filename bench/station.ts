import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';

/** The root of the checkout, seen from .cache/bench. */
export const root: string = join(import.meta.dirname, '../..');

/** A station in a process and a home of its own. */
export interface BenchStation {
  readonly pid: number;
  readonly home: string;
  readonly web: string;
  readonly ftpPort: number;
  readonly sftpPort: number;
  readonly user: string;
  readonly password: string;
  stop(): Promise<void>;
}

/** In an empty home that goes with it, or in one that stays. `from`: the folder of the built command. */
export async function startBenchStation(kept?: string, from: string = root): Promise<BenchStation> {
  const home = kept ?? (await mkdtemp(join(tmpdir(), 'setside-bench-')));
  const args = [
    'station',
    '--home',
    home,
    '--web',
    '0',
    '--ftps',
    '0',
    '--sftp',
    '0',
    '--ftp',
    '0',
    '--passive',
    '43000-43999',
    '--json',
  ];
  const child = spawn(process.execPath, [join(from, 'bin/setside.mjs'), ...args], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const [line] = await once(createInterface({ input: child.stdout }), 'line');
  const ready: {
    web: string;
    ftp: number;
    sftp: number;
    cameras: { user: string; password: string }[];
  } = JSON.parse(String(line));
  const camera = ready.cameras[0];
  if (camera === undefined || child.pid === undefined) throw new Error('the station did not start');
  return {
    pid: child.pid,
    home,
    web: ready.web,
    ftpPort: ready.ftp,
    sftpPort: ready.sftp,
    user: camera.user,
    password: camera.password,
    stop: async () => {
      await end(child);
      if (kept === undefined) await rm(home, { recursive: true, force: true });
    },
  };
}

async function end(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null) return;
  const exit = once(child, 'exit');
  child.kill('SIGTERM');
  await exit;
}
