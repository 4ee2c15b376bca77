import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { root, startBenchStation } from './station.ts';

const folder = join(root, '.cache/bench-raws/lossless');

/**
 * Raw files of the stand-in, some 24 megapixels and 26 MB each, compressed as cameras do it, made once and kept in .cache: the stand-in uploads them into a
 * station of its own and the originals are taken from there.
 */
export async function benchRaws(count: number, say: (line: string) => void): Promise<string[]> {
  await mkdir(folder, { recursive: true });
  const have = (await readdir(folder)).filter((name) => name.endsWith('.DNG')).sort();
  if (have.length < count) await shoot(count, say);
  const names = (await readdir(folder)).filter((name) => name.endsWith('.DNG')).sort();
  return names.slice(0, count).map((name) => join(folder, name));
}

async function shoot(count: number, say: (line: string) => void): Promise<void> {
  say(`The stand-in shoots ${count} raws of 24 megapixels (once; some minutes) …`);
  const station = await startBenchStation();
  try {
    const args = [
      ...[
        'stand-in',
        '--port',
        String(station.ftpPort),
        '--user',
        station.user,
        '--password',
        station.password,
      ],
      ...[
        '--frames',
        String(count),
        '--interval',
        '0',
        '--pace',
        '0',
        '--size',
        '24',
        '--cache',
        join(folder, 'cache'),
      ],
    ];
    const run = spawnSync(process.execPath, [join(root, 'bin/setside.mjs'), ...args], { stdio: 'inherit' });
    if (run.status !== 0) throw new Error('the stand-in did not finish');
    const originals = join(station.home, 'jobs/unsorted/originals/cam1/DCIM/100SETSD');
    for (const name of await readdir(originals)) {
      const to = join(folder, name);
      if (!existsSync(to)) await writeFile(to, await readFile(join(originals, name)));
    }
  } finally {
    await station.stop();
  }
}
