import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { sentence } from '../../src/words/index.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

let home: string;
let folder: string;
let station: RunningStation;

beforeEach(async () => {
  home = await newHome();
  folder = await mkdtemp(join(tmpdir(), 'setside-side-'));
  station = await startStation(home);
});

afterEach(async () => {
  await station.stop();
  await removeHome(home);
  await rm(folder, { recursive: true, force: true });
});

test.skipIf(!hasProgram('curl'))(
  'what is no picture is kept to the byte, listed as a frame of its own, and told as what it is',
  async () => {
    // A name that cameras give to an index of theirs (from memory); the bytes are invented, and of no kind that is known.
    const bytes = Uint8Array.from({ length: 3000 }, (_, at) => (at * 7 + 1) % 256);
    const file = join(folder, 'INDEX.DAT');
    await writeFile(file, bytes);
    expect((await curlUpload(station, file, '/INDEX.DAT')).code).toBe(0);
    const reason = await eventually('it is told as no picture', async () => {
      const picture = (await station.frames()).find(({ name }) => name === 'INDEX.DAT')?.picture;
      return picture?.state === 'cannot' ? picture.reason : undefined;
    });
    expect(reason).toEqual({ code: 'picture.unknown-kind', args: { name: 'INDEX.DAT' } });
    expect(sentence(reason)).toContain('kept safe');
    const kept = await readFile(join(home, 'jobs/unsorted/originals/cam1/INDEX.DAT'));
    expect(kept.equals(bytes)).toBe(true);
  },
);
