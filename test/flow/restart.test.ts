import { createHash, randomBytes } from 'node:crypto';
import { writeFile } from 'node:fs/promises';
import { connect } from 'node:net';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { renderFrame } from '../../src/stand-in/index.ts';
import { curlUpload, hasProgram, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** Architecture, invariants: what was acknowledged survives kill -9; a broken-off file stays until it is made good. */
describe.skipIf(!hasProgram('curl'))('kill -9 in the middle of an upload', () => {
  let home: string;
  let station: RunningStation;
  let raw: Uint8Array;
  let rawFile: string;

  beforeEach(async () => {
    home = await newHome();
    station = await startStation(home);
    raw = (await renderFrame({ sizeMegapixels: 0.5, noiseSeed: 7 })).bytes;
    rawFile = join(home, 'QMST0001.DNG');
    await writeFile(rawFile, raw);
  });

  afterEach(async () => {
    await station.stop();
    await removeHome(home);
  });

  test('nothing that the station started outlives it', async () => {
    // A raw of no known kind: only the reader of makers' notes might know it, so it is asked.
    await writeFile(rawFile, randomBytes(1000));
    expect((await curlUpload(station, rawFile, '/UNKNOWN.RAW')).code).toBe(0);
    const children = await eventually('a helper runs', async () => {
      const { stdout } = await runProgram('ps', ['-o', 'pid=', '--ppid', String(station.process.pid)]);
      return stdout.trim() === '' ? null : stdout.trim().split(/\s+/);
    });
    await station.kill();
    await eventually(
      'all are gone',
      async () => (await runProgram('ps', ['-p', children.join()])).code !== 0,
    );
    station = await startStation(home);
  });

  test('everything acknowledged is there, the broken-off file is listed and can be resumed', async () => {
    const done = await curlUpload(station, rawFile, '/DCIM/100SETSD/QMST0001.DNG');
    expect(done.code, done.stderr).toBe(0);
    const acknowledged = await station.frames();

    // A second file, paced so that the station dies in the middle of it.
    const upload = curlUpload(station, rawFile, '/DCIM/100SETSD/QMST0002.DNG', ['--limit-rate', '400k']);
    await eventually('half of it is here', async () =>
      (await station.frames()).find(
        ({ name, files }) => name === 'QMST0002.DNG' && (files[0]?.size ?? 0) > 200_000,
      ),
    );
    await station.kill();
    expect((await upload).code).not.toBe(0);

    station = await startStation(home);
    const after = await station.frames();
    expect(after.find(({ id }) => id === acknowledged[0]?.id)?.files[0]).toMatchObject({
      state: 'whole',
      sha256: createHash('sha256').update(raw).digest('hex'),
    });
    const broken = after.find(({ name }) => name === 'QMST0002.DNG');
    expect(broken?.files[0]?.state).toBe('broken-off');
    const held = broken?.files[0]?.size ?? 0;
    expect(held).toBeGreaterThan(0);
    expect(held).toBeLessThan(raw.length);

    // What there is of it is shown, although the station that saw it arrive is gone.
    await eventually(
      'its preview is cut out',
      async () => (await station.frame(broken?.id ?? '')).picture.state === 'first-view',
    );

    // curl -C - asks SIZE and goes on by REST or APPE (RFC 3659 section 5).
    const resumed = await curlUpload(station, rawFile, '/DCIM/100SETSD/QMST0002.DNG', ['-C', '-']);
    expect(resumed.code, resumed.stderr).toBe(0);
    const whole = await station.frame(broken?.id ?? '');
    expect(whole.files[0]).toMatchObject({
      state: 'whole',
      size: raw.length,
      sha256: createHash('sha256').update(raw).digest('hex'),
    });
  });

  test('a broken-off file can also be sent again from the start', async () => {
    const upload = curlUpload(station, rawFile, '/DCIM/100SETSD/QMST0003.DNG', ['--limit-rate', '400k']);
    await eventually('some of it is here', async () =>
      (await station.frames()).find(({ files }) => (files[0]?.size ?? 0) > 100_000),
    );
    await station.kill();
    await upload;
    station = await startStation(home);
    const again = await curlUpload(station, rawFile, '/DCIM/100SETSD/QMST0003.DNG');
    expect(again.code, again.stderr).toBe(0);
    await eventually('it is whole and nothing is broken off any more', async () => {
      const states = (await station.frames()).flatMap(({ files }) => files.map(({ state }) => state));
      return states.length > 0 && states.every((state) => state === 'whole');
    });
  });
});

describe('bad input to the whole station', () => {
  test('a port in use is said in plain words, names the port, and the exit code is 3', async () => {
    const home = await newHome();
    const first = await startStation(home);
    const second = await newHome();
    const port = String(first.ready.ftp);
    const run = await runProgram(process.execPath, [
      join(import.meta.dirname, '../../bin/setside.mjs'),
      ...['station', '--home', second, '--web', '0', '--ftp', port, '--json'],
    ]);
    expect(run.code).toBe(3);
    expect(run.stderr).toContain(port);
    expect(run.stderr).not.toMatch(/at .*\.js:\d+/);
    await first.stop();
    await removeHome(home);
    await removeHome(second);
  });

  test('two stations on one home: the second refuses and the first goes on', async () => {
    const home = await newHome();
    const first = await startStation(home);
    await expect(startStation(home)).rejects.toThrow(/in use|running/);
    expect(await first.frames()).toEqual([]);
    await first.stop();
    await removeHome(home);
  });

  test('rubbish on the control line costs nobody else anything', async () => {
    const home = await newHome();
    const station = await startStation(home);
    const socket = connect(station.ready.ftp ?? 0, '127.0.0.1');
    socket.on('error', () => {});
    socket.write(randomBytes(64 * 1024));
    const file = join(home, 'A.TXT');
    await writeFile(file, 'hello\n');
    expect((await curlUpload(station, file, '/A.TXT')).code).toBe(0);
    socket.destroy();
    await station.stop();
    await removeHome(home);
  });
});
