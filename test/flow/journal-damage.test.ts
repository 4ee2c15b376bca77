import { copyFile, mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { sentence } from '../../src/words/index.ts';
import { curlUpload, hasProgram, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** A wrong bit in the journal: told with what to do, and what is told is enough to put everything right. */
const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const segment = '00000001-000000000001.journal';
let root: string;
let home: string;
let place: string;
let station: RunningStation;

beforeEach(async () => {
  root = await newHome();
  home = join(root, 'home');
  place = join(root, 'second');
  await mkdir(home);
});

afterEach(async () => {
  await station?.stop();
  await removeHome(root);
});

async function start(): Promise<void> {
  station = await startStation(home, ['--copy', place]);
}

async function verify(...more: string[]): Promise<{ code: number | null; text: string }> {
  const run = await runProgram(process.execPath, [binary, 'verify', '--home', home, ...more]);
  return { code: run.code, text: Buffer.from(run.stdout, 'latin1').toString() };
}

async function kept(): Promise<unknown> {
  const answer = await fetch(`${station.ready.web}/api/v1/station`);
  return ((await answer.json()) as { kept: unknown }).kept;
}

/** Turns one bit within the last line that speaks of this kind of record; gives its number. */
async function damage(kind: string): Promise<number> {
  const path = join(home, 'journal', segment);
  const bytes = await readFile(path);
  const at = bytes.lastIndexOf(`"type":"${kind}"`);
  bytes[at + 3] = (bytes[at + 3] ?? 0) ^ 1;
  await writeFile(path, bytes);
  const line = bytes.subarray(0, at).toString().split('\n').at(-1);
  return Number(/"seq":(\d+)/.exec(line ?? '')?.[1]);
}

test.skipIf(!hasProgram('curl'))(
  'a station starts on a journal that is damaged in the middle; verify says how it is mended, and then all is true again',
  async () => {
    await start();
    const names = ['A.TXT', 'B.TXT', 'C.TXT'];
    for (const name of names) {
      await writeFile(join(root, name), `a frame called ${name}`);
      expect((await curlUpload(station, join(root, name), `/${name}`)).code).toBe(0);
    }
    await eventually('all is copied, the journal too', async () => {
      const both = [home, place].map((folder) => readFile(join(folder, 'journal', segment), 'utf8'));
      const [here, there] = await Promise.all(both);
      return here === there && here?.split('"type":"copied"').length === 4;
    });
    await station.stop();
    const sound = await readFile(join(home, 'journal', segment));
    const seq = await damage('kept');

    await start();
    const damaged = { code: 'keep.journal-damaged', args: { seqFrom: seq, seqTo: seq, count: 1 } };
    expect(await kept()).toEqual([damaged]);
    expect(sentence(damaged)).toContain('run: setside verify');
    expect((await station.frames()).map(({ name, files }) => [name, files.length]).sort()).toEqual(
      names.map((name) => [name, 1]),
    );
    for (const more of [[], ['--mend']]) {
      const said = await verify(...more);
      expect(said.code).toBe(1);
      expect(said.text).toContain(
        sentence({ code: 'copy.holds-journal', args: { folder: place, home, name: segment } }),
      );
      expect(said.text).not.toContain('setside verify --mend');
    }
    // The station has copied its journal since, and the good copy is where it was.
    await eventually('what was said since is copied too', async () => {
      const newest = (await readdir(join(place, 'journal'))).sort().at(-1) ?? segment;
      return (
        newest !== segment && (await readFile(join(place, 'journal', newest), 'utf8')).includes('"kept"')
      );
    });
    expect((await readFile(join(place, 'journal', segment))).equals(sound)).toBe(true);

    // As the sentence says.
    await station.stop();
    await rename(join(home, 'journal', segment), join(root, segment));
    await copyFile(join(place, 'journal', segment), join(home, 'journal', segment));
    await start();
    expect(await kept()).toEqual([]);
    expect(await verify()).toMatchObject({ code: 0 });
    await station.stop();
    expect(await verify('--rebuild')).toMatchObject({ code: 0 });
  },
);

test.skipIf(!hasProgram('curl'))(
  'where the last record cannot be read the file it kept is kept once more, and its frame is one',
  async () => {
    station = await startStation(home);
    await writeFile(join(root, 'A.TXT'), 'a frame');
    expect((await curlUpload(station, join(root, 'A.TXT'), '/A.TXT')).code).toBe(0);
    await station.stop();
    await damage('kept');
    station = await startStation(home);
    expect((await station.frames()).map(({ name, files }) => [name, files.length])).toEqual([['A.TXT', 1]]);
    expect(await verify()).toMatchObject({ code: 0 });
    // A segment that is gone and was never copied: it is said that no place holds it.
    await station.stop();
    await rm(join(home, 'journal', segment));
    const said = await verify();
    expect(said.code).toBe(1);
    expect(said.text).toContain(sentence({ code: 'copy.none-holds-journal', args: {} }));
  },
);
