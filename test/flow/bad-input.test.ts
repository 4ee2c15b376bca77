import { createHash, randomBytes } from 'node:crypto';
import { mkdir, open, stat, statfs, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { renderFrame } from '../../src/stand-in/index.ts';
import { curlStream, curlUpload, hasProgram, runProgram } from './clients.ts';
import { FtpTalk } from './ftp-talk.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** Each gets a clear error, and nothing acknowledged is lost. Replies after RFC 959 section 4.2.2. */
describe.skipIf(!hasProgram('curl'))('bad input on the line', () => {
  let station: RunningStation;
  let kept: string;

  beforeAll(async () => {
    station = await startStation(await newHome());
    const file = join(station.home, 'good.txt');
    await writeFile(file, 'a good file\n');
    expect((await curlUpload(station, file, '/GOOD.TXT')).code).toBe(0);
    kept = createHash('sha256').update('a good file\n').digest('hex');
  });

  afterEach(async () => {
    const good = (await station.frames()).find(({ name }) => name === 'GOOD.TXT');
    expect(good?.files[0]?.sha256).toBe(kept);
  });

  afterAll(async () => {
    await station.stop();
    await removeHome(station.home);
  });

  test('a wrong password is refused with 530, and the camera’s log says so in plain words', async () => {
    const talk = await FtpTalk.open(station);
    await talk.ask(`USER ${station.user}`);
    expect(await talk.ask('PASS not-this-one')).toMatch(/^530 /);
    talk.close();
    await eventually('the log names it', async () => {
      const answer = await fetch(`${station.ready.web}/api/v1/station`);
      return (await answer.text()).includes('line.wrong-login');
    });
  });

  test('an unknown command is answered 500 and the session goes on', async () => {
    const talk = await FtpTalk.logIn(station);
    expect(await talk.ask('XYZZY')).toMatch(/^50[02] /);
    expect(await talk.ask('NOOP')).toMatch(/^200 /);
    talk.close();
  });

  test('names with a way up, of 300 characters, with NUL or control characters never leave the camera’s folder', async () => {
    const names = [
      '../../outside.txt',
      '..',
      `${'n'.repeat(300)}.txt`,
      'nul\0name.txt',
      'esc\u001b[31m.txt',
      'tab\tname.txt',
      '/etc/outside.txt',
    ];
    const talk = await FtpTalk.logIn(station);
    for (const name of names) {
      const reply = await talk.store(name, Buffer.from('x'));
      expect(reply, JSON.stringify(name)).toMatch(/^(226|55[03]|501) /);
      // biome-ignore lint/suspicious/noControlCharactersInRegex: replies must hold none but the line's own end
      expect(reply, JSON.stringify(name)).not.toMatch(/[\u0000-\u0009\u000b\u000c\u000e-\u001f\u007f]/);
    }
    expect(await talk.ask('NOOP')).toMatch(/^200 /);
    talk.close();
    for (const place of [
      join(station.home, 'outside.txt'),
      join(station.home, 'jobs/outside.txt'),
      '/etc/outside.txt',
    ]) {
      await expect(stat(place)).rejects.toThrow(/ENOENT/);
    }
  });

  test('an empty picture is not acknowledged; the very same again is kept as what it is; both are judged bad', async () => {
    const file = join(station.home, 'empty.dng');
    await writeFile(file, '');
    expect((await curlUpload(station, file, '/EMPTY.DNG')).code).not.toBe(0);
    const [broken] = (await station.frames()).filter(({ name }) => name === 'EMPTY.DNG');
    expect(broken).toMatchObject({
      files: [{ state: 'broken-off' }],
      verdicts: { arrived: { judgement: 'bad' } },
    });
    expect((await curlUpload(station, file, '/EMPTY.DNG')).code).toBe(0);
    const frame = await eventually('it is listed', async () =>
      (await station.frames()).find(({ name }) => name === 'EMPTY.DNG'),
    );
    expect(frame.files[0]?.size).toBe(0);
    expect(frame.verdicts.arrived.judgement).toBe('bad');
  });

  test('two files of one name at once: both contents are kept or one is told to wait, none is lost', async () => {
    const contents = [randomBytes(300_000), randomBytes(300_000)];
    const uploads = contents.map(() => curlStream(station, '/SAME.BIN'));
    for (const [at, upload] of uploads.entries()) upload.input.write(contents[at]?.subarray(0, 150_000));
    for (const [at, upload] of uploads.entries()) upload.input.end(contents[at]?.subarray(150_000));
    const ran = await Promise.all(uploads.map(({ ended }) => ended));
    const acknowledged = contents.filter((_, at) => ran[at]?.code === 0);
    expect(acknowledged.length).toBeGreaterThan(0);
    const hashes = (await station.frames()).flatMap(({ files }) => files.map(({ sha256 }) => sha256));
    for (const content of acknowledged) {
      expect(hashes).toContain(createHash('sha256').update(content).digest('hex'));
    }
  });
});

/** The home lies on a file system of its own that holds 40 MB; needs the right to mount. */
const mayMount = process.platform === 'linux' && process.getuid?.() === 0;

describe.skipIf(!mayMount)('a full disk', () => {
  const floorMB = 1;
  let home: string;
  let station: RunningStation;

  beforeAll(async () => {
    home = await newHome();
    const mounted = await runProgram('mount', ['-t', 'tmpfs', '-o', 'size=40m', 'tmpfs', home]);
    expect(mounted.code, mounted.stderr).toBe(0);
    await mkdir(home, { recursive: true });
    await writeFile(join(home, 'setside.json'), JSON.stringify({ diskFloorMB: floorMB }));
    station = await startStation(home);
  });

  afterAll(async () => {
    await station?.stop();
    await runProgram('umount', [home]);
    await removeHome(home);
  });

  test('a file that fills the disk is answered 452 or 552, what was acknowledged stays whole', async () => {
    const raw = (await renderFrame({ sizeMegapixels: 1 })).bytes;
    const small = await newHome();
    const good = join(small, 'good.dng');
    await writeFile(good, raw);
    expect((await curlUpload(station, good, '/GOOD.DNG')).code).toBe(0);
    // Spoken by hand: curl hangs up without reading the reply when its data connection is closed.
    const talk = await FtpTalk.logIn(station);
    expect(await talk.store('LARGE.BIN', Buffer.alloc(60_000_000, 1))).toMatch(/^(452|552) /);
    expect(await talk.ask('NOOP')).toMatch(/^200 /);
    talk.close();
    const frames = await station.frames();
    expect(frames.find(({ name }) => name === 'GOOD.DNG')?.files[0]).toMatchObject({
      state: 'whole',
      sha256: createHash('sha256').update(raw).digest('hex'),
    });
    expect(frames.find(({ name }) => name === 'LARGE.BIN')?.files[0]?.state).not.toBe('whole');
    await removeHome(small);
  });

  test('after that the next file is refused at once with 452, and the session lives', async () => {
    const talk = await FtpTalk.logIn(station);
    const reply = await talk.store('NEXT.BIN', Buffer.from('x'));
    expect(reply).toMatch(/^452 /);
    expect(await talk.ask('NOOP')).toMatch(/^200 /);
    talk.close();
  });
});

const largeBytes = 5 * 1000 ** 3;
const space = await statfs('/tmp').catch(() => null);
const hasRoom = space !== null && space.bavail * space.bsize > largeBytes * 2;

describe.skipIf(!hasProgram('curl') || !hasRoom)('a file of 5 GB', () => {
  test('is kept whole, past the 4 GB that 32 bits can count', async () => {
    const home = await newHome();
    const station = await startStation(home);
    const file = join(home, 'large-source.mov');
    const handle = await open(file, 'w');
    // Holes take no room; a mark at either end shows that both arrived.
    await handle.write('begin', 0);
    await handle.write('end', largeBytes - 3);
    await handle.close();
    const sent = await runProgram(
      'curl',
      ['-sS', '--user', `${station.user}:${station.password}`, '-T', file, `${station.ftpUrl}/CLIP0001.MOV`],
      { timeoutMs: 240_000 },
    );
    expect(sent.code, sent.stderr).toBe(0);
    const frame = (await station.frames()).find(({ name }) => name === 'CLIP0001.MOV');
    expect(frame?.files[0]?.size).toBe(largeBytes);
    const tail = await fetch(`${station.ready.web}/api/v1/frames/${frame?.id}/files/CLIP0001.MOV`, {
      headers: { range: 'bytes=-3' },
    });
    expect([tail.status, await tail.text()]).toEqual([206, 'end']);
    await station.stop();
    await removeHome(home);
  }, 300_000);
});
