import { readFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { cameraEntry, diaryPage, station as stationShape } from '../../src/contract/index.ts';
import { curlUpload, hasProgram, runProgram } from './clients.ts';
import { FtpTalk } from './ftp-talk.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');

/** Several cameras: added, changed and ended by command and by call, without a restart. */
describe.skipIf(!hasProgram('curl'))('who may come in', () => {
  let home: string;
  let station: RunningStation;
  let file: string;

  beforeEach(async () => {
    home = await newHome();
    station = await startStation(home);
    file = join(home, 'A.TXT');
    await writeFile(file, 'a frame');
  });

  afterEach(async () => {
    await station.stop();
    await removeHome(home);
  });

  const camera = async (...words: string[]): Promise<{ name: string; user: string; password: string }> => {
    const run = await runProgram(process.execPath, [binary, 'camera', ...words, '--home', home, '--json']);
    expect(run.code, run.stderr).toBe(0);
    return JSON.parse(run.stdout);
  };
  const call = async (method: string, path: string, body?: object): Promise<unknown> => {
    const answer = await fetch(`${station.ready.web}${path}`, {
      method,
      ...(body === undefined
        ? {}
        : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
    });
    return answer.json();
  };
  const uploadAs = async ({ user, password }: { user: string; password: string }): Promise<boolean> =>
    (await curlUpload({ ...station, user, password }, file, '/A.TXT')).code === 0;

  test('a command adds a camera with a folder of its own, gives it a new password, and ends it', async () => {
    const added = await camera('add', 'overhead');
    await eventually('it comes in', () => uploadAs(added));
    expect((await station.frames()).map((frame) => frame.camera)).toEqual(['overhead']);
    const fresh = await camera('password', 'overhead');
    await eventually('the new password is right', () => uploadAs(fresh));
    expect(await uploadAs(added)).toBe(false);
    await camera('end', 'overhead');
    await eventually('it is shut out', async () => !(await uploadAs(fresh)));
    await camera('return', 'overhead');
    await eventually('it is back', () => uploadAs(fresh));
  });

  test('the sheet of a camera is written as a PDF that nobody else on this computer reads, over nothing', async () => {
    const sheet = join(home, 'sheet.pdf');
    const write = () =>
      runProgram(process.execPath, [binary, 'camera', 'sheet', 'cam1', '--to', sheet, '--home', home]);
    expect((await write()).code).toBe(0);
    const bytes = await readFile(sheet);
    expect(bytes.subarray(0, 5).toString()).toBe('%PDF-');
    expect((await stat(sheet)).mode & 0o777).toBe(0o600);
    const again = await write();
    expect([again.code, again.stderr]).toEqual([3, expect.stringContaining('is there already')]);
    expect(bytes.equals(await readFile(sheet))).toBe(true);
  });

  test('a password is taken as a camera’s key board may send it: with a capital and with gaps', async () => {
    const { password, user } = station;
    const groups = password.match(/.{4}/g) ?? [];
    expect(groups).toHaveLength(4);
    const asTyped = groups.join(' ').replace(/^./, (letter) => letter.toUpperCase());
    expect(await uploadAs({ user, password: asTyped })).toBe(true);
    expect(await uploadAs({ user, password: `${password}b` })).toBe(false);
  });

  test('a wrong log-in stands in the station’s own lines, without what could command a terminal', async () => {
    const talk = await FtpTalk.open(station);
    await talk.ask('USER no\u001b[2Jbody');
    expect(await talk.ask('PASS wrong')).toMatch(/^530 /);
    talk.close();
    await eventually('the line is written', async () =>
      /warn: .*gave user “no\ufffd\[2Jbody” and was not let in/.test(station.stderr()),
    );
  });

  test('events tell of a camera without its password, the station tells it to the operator', async () => {
    const stop = new AbortController();
    const answer = await fetch(`${station.ready.web}/api/v1/events`, { signal: stop.signal });
    const heard: string[] = [];
    const listening = (async () => {
      for await (const chunk of answer.body ?? []) heard.push(Buffer.from(chunk).toString());
    })().catch(() => {});
    await call('PATCH', '/api/v1/cameras/cam1', { newPassword: true });
    await eventually('it is told', async () => heard.join('').includes('event: line'));
    stop.abort();
    await listening;
    const { cameras } = stationShape.parse(await call('GET', '/api/v1/station'));
    const [password] = cameras.map((entry) => entry.password);
    expect(password).toMatch(/./);
    expect(heard.join('')).not.toContain(password);
    expect(heard.join('')).not.toContain(station.password);
  });

  test('a camera that is ended is sent off in the middle, and what had come of its file stays', async () => {
    const added = await camera('add', 'cam2');
    await eventually('it comes in', () => uploadAs(added));
    const large = join(home, 'LARGE.BIN');
    await writeFile(large, Buffer.alloc(30_000_000, 'x'));
    const login = { ...station, user: added.user, password: added.password };
    const uploading = curlUpload(login, large, '/LARGE.BIN', ['--limit-rate', '300k']);
    const state = async (): Promise<[string, number] | null> => {
      const frame = (await station.frames()).find(({ name }) => name === 'LARGE.BIN');
      const [file] = frame?.files ?? [];
      return file === undefined ? null : [file.state, file.size];
    };
    await eventually('some of it is here', async () => ((await state())?.[1] ?? 0) > 100_000);
    await camera('end', 'cam2');
    expect((await uploading).code).not.toBe(0);
    const [broken, size] = await eventually('it is told', async () => {
      const now = await state();
      return now?.[0] === 'broken-off' ? now : null;
    });
    expect([broken, size > 100_000]).toEqual(['broken-off', true]);
    // The break is told a moment after the frame shows it.
    await eventually('the log says what happened', async () =>
      /LARGE\.BIN broke off after .*: the camera was sent off\./.test(station.stderr()),
    );
    expect(station.stderr()).toContain('cam2 was sent off: it was ended here.');
    expect(station.stderr()).not.toContain('station was stopped');
  });

  test('a log-in that is refused is told in one line', async () => {
    const added = cameraEntry.parse(await call('POST', '/api/v1/cameras', { name: 'cam2' }));
    await call('PATCH', '/api/v1/cameras/cam2', { allow: ['192.168.250.0/24'] });
    const { talk, answer } = await logIn(added.user, added.password ?? '');
    talk.close();
    expect(answer).toMatch(/^530 /);
    const lines = await eventually('the diary has it', async () => {
      const page = diaryPage.parse(await call('GET', '/api/v1/diary'));
      const codes = page.lines.map(({ finding }) => finding.code);
      return codes.includes('line.disconnected') ? codes : null;
    });
    expect(lines.filter((code) => code === 'line.wrong-login' || code === 'line.not-allowed-from')).toEqual([
      'line.not-allowed-from',
    ]);
  });

  const logIn = async (user: string, password: string): Promise<{ talk: FtpTalk; answer: string }> => {
    const talk = await FtpTalk.open(station);
    await talk.ask(`USER ${user}`);
    return { talk, answer: await talk.ask(`PASS ${password}`) };
  };

  test('a call says where a camera may come from, and the diary says why it was not let in', async () => {
    const added = cameraEntry.parse(await call('POST', '/api/v1/cameras', { name: 'cam2' }));
    const logIn = { user: added.user, password: added.password ?? '' };
    expect(await uploadAs(logIn)).toBe(true);
    await call('PATCH', '/api/v1/cameras/cam2', { allow: ['192.168.250.0/24'] });
    expect(await uploadAs(logIn)).toBe(false);
    const codes = await eventually('the diary has it', async () => {
      const page = diaryPage.parse(await call('GET', '/api/v1/diary?camera=cam2'));
      const found = page.lines.map((line) => line.finding.code);
      return found.includes('line.not-allowed-from') ? found : null;
    });
    expect(codes).toContain('line.upload-kept');
    expect(await call('POST', '/api/v1/cameras', { name: 'cam2' })).toMatchObject({ code: 'camera-exists' });
    expect(await call('PATCH', '/api/v1/cameras/cam2', { allow: ['x'] })).toMatchObject({
      code: 'bad-allow-rule',
    });

    await station.stop();
    const run = await runProgram(process.execPath, [binary, 'camera', 'diary', 'cam2', '--home', home]);
    expect(run.stdout).toContain('not among its allowed addresses');
    station = await startStation(home);
    const entry = await station.frames();
    expect(entry).toHaveLength(1);
  });
});
