import { appendFile, cp, mkdir, mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { station as stationShape } from '../../src/contract/index.ts';
import { faultNames, renderFrame } from '../../src/stand-in/index.ts';
import { curlUpload, hasProgram, type Ran, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** README, Commands: `--help`, `--json`, and what each exit code says. */
const setside = (...args: string[]): Promise<Ran> =>
  runProgram(process.execPath, [join(import.meta.dirname, '../../bin/setside.mjs'), ...args]);

describe('every command', () => {
  test.each(['station', 'stand-in', 'develop', 'card', 'verify'])(
    'setside %s --help says what it takes and ends with 0',
    async (name) => {
      const run = await setside(name, '--help');
      expect(run.code).toBe(0);
      expect(run.stdout).toContain(`Usage: setside ${name}`);
      expect(run.stdout).toContain('--json');
    },
  );

  test('an unknown command or option, and a value that is none, end with 2 and say which', async () => {
    for (const args of [
      ['nonsense'],
      ['verify', '--nonsense'],
      ['verify', '--mend', '--rebuild'],
      ['station', '--web', 'abc'],
      ['station', '--passive', '9-1'],
    ]) {
      const run = await setside(...args);
      expect(run.code, args.join(' ')).toBe(2);
      expect(run.stderr, args.join(' ')).toMatch(/nonsense|--web|--passive|--rebuild/);
    }
  });

  test.each([
    [['--fault', 'nonsense'], 'one of the faults cut, duplicate'],
    [['--fault', 'cut=0'], 'cut to be from 1 to 99 %'],
    [['--files', 'raw,raw'], 'raw, jpeg, xmp, each once'],
    [['--cameras', '9'], 'from 1 to 8'],
    [['--user', 'cam2'], 'a --password for each --user'],
  ])('setside stand-in %s ends with 2 and says what was expected', async (args, expected) => {
    const run = await setside('stand-in', '--port', '9', '--user', 'cam1', '--password', 'x', ...args);
    expect(run.code).toBe(2);
    expect(run.stderr).toContain(expected);
  });

  test('setside stand-in --help explains each fault', async () => {
    const { stdout } = await setside('stand-in', '--help');
    for (const name of faultNames) expect(stdout).toMatch(new RegExp(`^  ${name} +[A-Z].*\\.$`, 'm'));
  });

  test('a failure is a sentence and a cure with 3, never a stack', async () => {
    const run = await setside('verify', '--home', join(tmpdir(), 'there-is-no-such-home'));
    expect(run.code).toBe(3);
    expect(run.stderr).toContain('--home');
    expect(run.stderr).not.toMatch(/\n\s+at /);
  });

  test('with --json a failure is a document too', async () => {
    const run = await setside('verify', '--json', '--home', join(tmpdir(), 'there-is-no-such-home'));
    expect(run.code).toBe(3);
    expect(JSON.parse(run.stdout)).toMatchObject({
      error: 'no-home',
      cure: expect.stringContaining('--home'),
    });
  });
});

describe('setside develop', () => {
  let folder: string;

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'setside-develop-'));
    await writeFile(join(folder, 'a.dng'), (await renderFrame({ sizeMegapixels: 0.1 })).bytes);
    await writeFile(join(folder, 'b.txt'), 'no picture\n');
  });

  afterAll(() => rm(folder, { recursive: true, force: true }));

  test('renders a raw to a JPEG with a profile, one JSON line for each file', async () => {
    const run = await setside('develop', join(folder, 'a.dng'), '--out', join(folder, 'out'), '--json');
    expect(run.code, run.stderr).toBe(0);
    const line: unknown = JSON.parse(run.stdout);
    expect(line).toMatchObject({ kind: 'raw', outPath: join(folder, 'out/a.jpg') });
    const { format, icc } = await sharp(join(folder, 'out/a.jpg')).metadata();
    expect([format, icc !== undefined]).toEqual(['jpeg', true]);
  });

  test('raws are balanced on the target in a frame, which is told with its errors before and after', async () => {
    const chart = join(folder, 'chart.dng');
    const wall = join(folder, 'wall.dng');
    // A gel before the lamp that the camera knows nothing of.
    const faults = [{ name: 'tint', value: 3200 }] as const;
    const sizeMegapixels = 0.12;
    await writeFile(chart, (await renderFrame({ purpose: 'chart', sizeMegapixels, faults })).bytes);
    await writeFile(wall, (await renderFrame({ sizeMegapixels: 0.05 })).bytes);
    const [plain, onTarget] = [join(folder, 'plain'), join(folder, 'on-target')];
    expect((await setside('develop', chart, '--out', plain)).code).toBe(0);
    const run = await setside('develop', chart, '--target', chart, '--out', onTarget, '--json');
    expect(run.code, run.stderr).toBe(0);
    const { balancedOn } = JSON.parse(run.stdout) as {
      balancedOn: { before: number; after: number; leaveOneOut: number };
    };
    // The patches' colours are the published ones: what is left is noise and the fit.
    expect(balancedOn.before).toBeGreaterThan(2);
    expect(balancedOn.after).toBeLessThan(1);
    expect(balancedOn.leaveOneOut).toBeGreaterThan(balancedOn.after);
    const [a, b] = await Promise.all([plain, onTarget].map((out) => readFile(join(out, 'chart.jpg'))));
    expect(a?.equals(b ?? Buffer.alloc(0))).toBe(false);
    const said = await setside('develop', chart, '--target', chart, '--out', onTarget, '--replace');
    expect(said.stdout).toMatch(/own balance and matrix: mean \d+\.\d /);
    const none = await setside('develop', chart, '--target', wall, '--out', onTarget, '--replace');
    expect([none.code, none.stdout]).toEqual([1, '']);
    expect(none.stderr).toContain('no target');
  }, 300_000);

  test('a file that is no picture is named with its code, the others are done, the exit code is 3', async () => {
    const run = await setside(
      'develop',
      join(folder, 'b.txt'),
      join(folder, 'a.dng'),
      '--out',
      join(folder, 'out2'),
      '--json',
    );
    expect(run.code).toBe(3);
    expect(run.stdout).toContain('not-a-picture');
    expect((await stat(join(folder, 'out2/a.jpg'))).size).toBeGreaterThan(1000);
  });

  test('what lies under the name of a result is replaced only where that is asked for', async () => {
    const beside = join(folder, 'beside');
    await mkdir(beside);
    await cp(join(folder, 'a.dng'), join(beside, 'a.dng'));
    await writeFile(join(beside, 'a.jpg'), 'the photographer’s own');
    const run = await setside('develop', join(beside, 'a.dng'), '--out', beside);
    expect(run.code).toBe(3);
    expect(run.stderr).toMatch(/a\.jpg is there already.*--replace/);
    expect(await readFile(join(beside, 'a.jpg'), 'utf8')).toBe('the photographer’s own');
    const asked = await setside('develop', join(beside, 'a.dng'), '--out', beside, '--replace');
    expect(asked.code, asked.stderr).toBe(0);
    expect((await sharp(join(beside, 'a.jpg')).metadata()).format).toBe('jpeg');
    expect((await readdir(beside)).sort()).toEqual(['a.dng', 'a.jpg']);
  });

  test('nothing is ever written into the home of a station', async () => {
    const originals = join(folder, 'Setside/jobs/unsorted/originals');
    await mkdir(originals, { recursive: true });
    await mkdir(join(folder, 'Setside/journal'));
    const run = await setside('develop', join(folder, 'a.dng'), '--out', originals, '--replace');
    expect(run.code).toBe(2);
    expect(run.stderr).toContain('outside it with --out');
    expect(await readdir(originals)).toEqual([]);
  });

  test('a file that is not there, is empty, or holds no raw data is said so in words', async () => {
    await writeFile(join(folder, 'empty.dng'), '');
    await sharp({ create: { width: 8, height: 8, channels: 3, background: 'grey' } }).toFile(
      join(folder, 'finished.jpg'),
    );
    const out = ['--out', join(folder, 'out4')];
    const said = async (...args: string[]): Promise<string> =>
      (await setside('develop', ...args, ...out)).stderr;
    expect(await said(join(folder, 'no.dng'))).toMatch(/There is no .*no\.dng\. Look at the name/);
    expect(await said(join(folder, 'empty.dng'))).toMatch(/The file is empty\. Take it from the card/);
    expect(await said(join(folder, 'b.txt'))).toMatch(
      /The file is no picture\. Give a camera.{1,3}s raw file/,
    );
    expect(await said(join(folder, 'finished.jpg'), '--format', 'tiff-linear')).toMatch(
      /a finished picture: there is no raw data in it\.\n$/,
    );
  });

  test('two files whose results would have one name are refused before anything is written', async () => {
    await cp(join(folder, 'a.dng'), join(folder, 'a.raw'));
    const run = await setside(
      'develop',
      join(folder, 'a.dng'),
      join(folder, 'a.raw'),
      '--out',
      join(folder, 'out3'),
    );
    expect(run.code).toBe(2);
    expect(run.stderr).toContain('a.jpg');
    await expect(stat(join(folder, 'out3'))).rejects.toThrow(/ENOENT/);
  });
});

describe.skipIf(!hasProgram('curl'))(
  'setside verify on a home with a whole, a marked, a renamed and a broken-off file',
  () => {
    let home: string;
    let station: RunningStation;

    beforeAll(async () => {
      home = await newHome();
      station = await startStation(home);
      const source = join(home, 'source.dng');
      const raw = (await renderFrame({ sizeMegapixels: 0.3 })).bytes;
      await writeFile(source, raw);
      for (const name of ['QMST0001.DNG', 'QMST0002.TMP']) {
        expect((await curlUpload(station, source, `/DCIM/100SETSD/${name}`)).code).toBe(0);
      }
      await curlUpload(station, source, '/DCIM/100SETSD/DUMMY.TXT', [
        '-Q',
        '-RNFR QMST0002.TMP',
        '-Q',
        '-RNTO QMST0002.DNG',
      ]);
      await writeFile(source, raw.subarray(0, raw.length >> 1));
      expect((await curlUpload(station, source, '/DCIM/100SETSD/QMST0003.DNG')).code).not.toBe(0);
      const frame = await eventually('the first is rendered', async () =>
        (await station.frames()).find(
          ({ name, picture }) => name === 'QMST0001.DNG' && picture.state === 'rendered',
        ),
      );
      const marked = await fetch(`${station.ready.web}/api/v1/frames/${frame.id}`, {
        method: 'PATCH',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ mark: 'hero' }),
      });
      expect(marked.status).toBe(200);
      await eventually('all are looked at', async () =>
        (await station.frames()).every(
          ({ picture, files }) => picture.state !== 'none' || files[0]?.state === 'broken-off',
        ),
      );
    });

    afterAll(async () => {
      await station.stop();
      await removeHome(home);
    });

    test('may run beside the station and finds every original as received', async () => {
      const run = await setside('verify', '--home', home, '--json');
      expect(run.code, run.stderr).toBe(0);
      expect(JSON.parse(run.stdout)).toMatchObject({ fine: true, findings: [] });
    });

    test('--rebuild refuses while the station runs, and afterwards makes the same register, also out of nothing', async () => {
      expect((await setside('verify', '--rebuild', '--home', home)).code).toBe(3);
      await station.stop();
      const first = await setside('verify', '--rebuild', '--home', home, '--json');
      expect(first.code, first.stdout + first.stderr).toBe(0);
      const { before, after } = rebuilt(first);
      expect(before).toBe(after);
      for (const suffix of ['', '-wal', '-shm']) await rm(join(home, `setside.db${suffix}`), { force: true });
      const again = await setside('verify', '--rebuild', '--home', home, '--json');
      expect(rebuilt(again)).toEqual({ before: null, after });
    });

    test('--rebuild tells a register that somebody changed, and mends it', async () => {
      await station.stop();
      const database = new Database(join(home, 'setside.db'));
      database.exec("update marks set mark = 'out'");
      database.close();
      const run = await setside('verify', '--rebuild', '--home', home);
      expect(run.code).toBe(1);
      station = await startStation(home);
      expect((await station.frames()).find(({ name }) => name === 'QMST0001.DNG')?.mark).toBe('hero');
    });

    test('one altered byte of an original is found, named, and ends with 1', async () => {
      const original = join(home, 'jobs/unsorted/originals/cam1/DCIM/100SETSD/QMST0001.DNG');
      const bytes = await readFile(original);
      const at = bytes.length >> 1;
      bytes.writeUInt8(bytes.readUInt8(at) ^ 1, at);
      await writeFile(original, bytes);
      const run = await setside('verify', '--home', home);
      expect(run.code).toBe(1);
      expect(run.stdout).toContain('QMST0001.DNG');
      await appendFile(original, 'x');
      expect((await setside('verify', '--home', home)).stdout).toContain('QMST0001.DNG');
    });
  },
);

function rebuilt(run: Ran): { before: unknown; after: unknown } {
  const report: { before?: unknown; after?: unknown } = JSON.parse(run.stdout);
  return { before: report.before, after: report.after };
}

describe('setside station --bind', () => {
  test.each([
    ['nonsense', 2, /expected an address of this computer such as .*got "nonsense"/],
    // RFC 5737: kept for documentation, so no computer has it.
    ['203.0.113.9', 2, /203\.0\.113\.9 is no address of this computer now[\s\S]*It has .*127\.0\.0\.1/],
  ])('%s is refused with a sentence and a cure', async (bind, code, said) => {
    const home = await newHome();
    const ports = ['--web', '0', '--ftp', '0', '--ftps', '0', '--sftp', '0'];
    const run = await setside('station', '--home', home, '--bind', bind, ...ports);
    await removeHome(home);
    expect(run.code, run.stderr).toBe(code);
    expect(run.stderr).toMatch(said);
    expect(run.stderr).not.toMatch(/ENOTFOUND|EADDRNOTAVAIL/);
  });

  test('loopback is told as the one address, and that no camera can reach it', async () => {
    const home = await newHome();
    const station = await startStation(home, ['--bind', '127.0.0.2']);
    const answer = await fetch(`${station.ready.web}/api/v1/station`);
    const { addresses, doors } = stationShape.parse(await answer.json());
    await station.stop();
    await removeHome(home);
    expect(addresses.map(({ address }) => address)).toEqual(['127.0.0.2']);
    expect(doors.find(({ name }) => name === 'ftp')?.trouble?.code).toBe('line.loopback-only');
  });
});
