import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { lookInto } from '../crash/home-facts.ts';
import { curlUpload, hasProgram, runProgram } from './clients.ts';
import { newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const preload = '/usr/lib/fiu/fiu_posix_preload.so';
const EIO = 5;
const ENOSPC = 28;
const EROFS = 30;

/**
 * Issue 4, never lose: a disk that fails under the running process. libfiu (Debian's fiu-utils) makes calls of the
 * system fail as they are told.
 */
describe.skipIf(!hasProgram('fiu-ctrl') || !existsSync(preload) || !hasProgram('curl'))(
  'a failing disk',
  () => {
    let home: string;
    let controls: string;
    let station: RunningStation;

    beforeEach(async () => {
      home = await newHome();
      controls = await mkdtemp(join(tmpdir(), 'setside-fiu-'));
      station = await startStation(home, [], {
        LD_PRELOAD: `/usr/lib/fiu/fiu_run_preload.so:${preload}`,
        FIU_CTRL_FIFO: join(controls, 'ctl'),
      });
    });

    afterEach(async () => {
      await station.stop();
      await removeHome(home);
      await rm(controls, { recursive: true, force: true });
    });

    /** Its pipes lose a word now and then; a word said twice does no harm. */
    const tell = async (order: string): Promise<void> => {
      const words = ['-f', join(controls, 'ctl'), '-c', order, String(station.process.pid)];
      let run = await runProgram('fiu-ctrl', words, { timeoutMs: 5000 });
      for (let tries = 1; run.code !== 0 && tries < 4; tries++) {
        run = await runProgram('fiu-ctrl', words, { timeoutMs: 5000 });
      }
      expect(run.code, run.stderr).toBe(0);
    };
    const upload = async (name: string): Promise<number | null> => {
      const file = join(controls, name);
      await writeFile(file, randomBytes(300_000));
      return (await curlUpload(station, file, `/${name}`)).code;
    };
    const homeIsFine = async (acknowledged: readonly string[]): Promise<void> => {
      await station.stop();
      const facts = await lookInto(home);
      const originals = [...facts.originals.keys()].map((path) => path.slice(path.lastIndexOf('/') + 1));
      expect(originals).toEqual(expect.arrayContaining([...acknowledged]));
      expect(facts.unlisted).toEqual([]);
      const run = await runProgram(process.execPath, [binary, 'verify', '--home', home]);
      expect(run.code, run.stdout).toBe(0);
    };

    test.each([
      ['posix/io/rw/pwrite', EIO],
      ['posix/io/rw/pwrite', ENOSPC],
      ['posix/io/rw/pwrite', EROFS],
      ['posix/io/sync/fdatasync', EIO],
      ['posix/io/sync/fsync', EIO],
      ['posix/io/dir/rename', EIO],
      ['posix/io/oc/open', EIO],
    ])(
      '%s fails with %i: no file is acknowledged, the station lives and goes on afterwards',
      async (call, why) => {
        expect(await upload('BEFORE.BIN')).toBe(0);
        await tell(`enable name=${call},failinfo=${why}`);
        expect(await upload('MEANWHILE.BIN')).not.toBe(0);
        await tell(`disable name=${call}`);
        expect(await upload('AFTER.BIN')).toBe(0);
        await homeIsFine(['BEFORE.BIN', 'AFTER.BIN']);
      },
    );

    test('calls that fail now and then: whatever was acknowledged is there', async () => {
      for (const call of ['rw/pwrite', 'sync/fdatasync', 'sync/fsync', 'dir/rename']) {
        await tell(`enable_random name=posix/io/${call},probability=0.05,failinfo=${EIO}`);
      }
      const acknowledged: string[] = [];
      for (let n = 1; n <= 25; n++) {
        const name = `F${n}.BIN`;
        if ((await upload(name)) === 0) acknowledged.push(name);
      }
      for (const call of ['rw/pwrite', 'sync/fdatasync', 'sync/fsync', 'dir/rename'])
        await tell(`disable name=posix/io/${call}`);
      expect(await upload('AFTER.BIN')).toBe(0);
      await homeIsFine([...acknowledged, 'AFTER.BIN']);
    });
  },
);

/** Mounting takes root's rights. */
test.skipIf(process.getuid?.() !== 0 || !hasProgram('mount') || !hasProgram('curl'))(
  'a start on a read-only home ends with a sentence, and nothing of it is changed',
  async ({ skip }) => {
    const home = await newHome();
    if ((await runProgram('mount', ['-t', 'tmpfs', '-o', 'size=2g', 'tmpfs', home])).code !== 0)
      skip('no mount');
    const file = join(tmpdir(), `setside-readonly-${process.pid}.bin`);
    await writeFile(file, randomBytes(100_000));
    let station: RunningStation | null = null;
    try {
      await mkdir(join(home, 'home'));
      station = await startStation(join(home, 'home'));
      expect((await curlUpload(station, file, '/A.BIN')).code).toBe(0);
      await station.stop();
      expect((await runProgram('mount', ['-o', 'remount,ro', home])).code).toBe(0);
      const again = await runProgram(process.execPath, [
        binary,
        'station',
        '--home',
        join(home, 'home'),
        '--web',
        '0',
        '--ftp',
        '0',
      ]);
      expect(again.code).toBe(3);
      expect(again.stderr).toMatch(/^setside: .*cannot be/m);
      await runProgram('mount', ['-o', 'remount,rw', home]);
      station = await startStation(join(home, 'home'));
      expect((await curlUpload(station, file, '/B.BIN')).code).toBe(0);
    } finally {
      await station?.kill();
      await runProgram('umount', [home]);
      await removeHome(home);
      await rm(file, { force: true });
    }
  },
);
