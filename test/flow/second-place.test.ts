import { createHash } from 'node:crypto';
import { existsSync, statSync } from 'node:fs';
import { mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { renderFrame } from '../../src/stand-in/index.ts';
import { sentence } from '../../src/words/index.ts';
import { curlUpload, hasProgram, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** A second device: the memory that Linux lends as a file system, which counts as one only where that is asked for. */
const shm = '/dev/shm';
const hasSecondDevice = existsSync(shm) && statSync(shm).dev !== statSync(tmpdir()).dev;
const binary = join(import.meta.dirname, '../../bin/setside.mjs');

let home: string;
let place: string;
let station: RunningStation;

beforeEach(async () => {
  home = await newHome();
  await writeFile(join(home, 'setside.json'), JSON.stringify({ memoryCounts: true }));
  place = await mkdtemp(join(hasSecondDevice ? shm : tmpdir(), 'setside-place-'));
});

afterEach(async () => {
  await station.stop();
  await removeHome(home);
  await rm(place, { recursive: true, force: true });
});

async function upload(name: string, text: string | Uint8Array): Promise<string> {
  const file = join(home, name);
  await writeFile(file, text);
  const done = await curlUpload(station, file, `/${name}`);
  expect(done.code, done.stderr).toBe(0);
  return createHash('sha256').update(text).digest('hex');
}

async function verify(...more: string[]): Promise<{
  code: number | null;
  report: { fine: boolean; copies: { files: number }[] };
}> {
  const run = await runProgram(process.execPath, [binary, 'verify', '--home', home, '--json', ...more]);
  return { code: run.code, report: JSON.parse(run.stdout) };
}

const copied = (name: string): Promise<string> =>
  eventually(`${name} is in the second place`, async () => {
    const frame = (await station.frames()).find((entry) => entry.name === name);
    return frame?.files[0]?.places[0]?.folder;
  });

test.skipIf(!hasProgram('curl') || !hasSecondDevice)(
  'a frame in two places is told, survives kill -9, and is verified in both',
  async () => {
    station = await startStation(home, ['--copy', place]);
    const sha256 = await upload('A.TXT', 'a frame');
    expect(await copied('A.TXT')).toBe(place);
    const [frame] = await station.frames();
    expect(frame?.files[0]).toMatchObject({ copies: 1, places: [{ otherDevice: true }] });
    await station.kill();
    station = await startStation(home, ['--copy', place]);
    expect((await station.frames())[0]?.files[0]).toMatchObject({ copies: 1, sha256 });
    expect(await verify()).toMatchObject({ code: 0, report: { fine: true, copies: [{ files: 1 }] } });

    await writeFile(join(place, 'jobs/unsorted/originals/cam1/A.TXT'), 'A FRAME');
    expect(await verify()).toMatchObject({
      code: 1,
      report: { copies: [{ findings: [{ code: 'copy.altered' }] }] },
    });
  },
);

test.skipIf(!hasProgram('curl') || !hasSecondDevice)(
  'an original that was altered is put back by one command while the station runs, and its frame is told',
  async () => {
    const original = join(home, 'jobs/unsorted/originals/cam1/A.TXT');
    station = await startStation(home, ['--copy', place]);
    const sha256 = await upload('A.TXT', 'a frame');
    expect(await copied('A.TXT')).toBe(place);
    await writeFile(original, 'A FRAME');
    expect((await verify()).code).toBe(1);
    const arrived = async (): Promise<string | undefined> => {
      const finding = (await station.frames())[0]?.verdicts.arrived.findings[0];
      return finding?.code;
    };
    await eventually('the frame says so', async () => (await arrived()) === 'arrived.original-differs');
    const run = await runProgram(process.execPath, [binary, 'restore', 'A.TXT', '--home', home, '--json']);
    expect(JSON.parse(run.stdout)).toMatchObject({
      originals: [{ outcome: 'put-back', folder: place, aside: 'set-aside/A.TXT' }],
    });
    expect(run.code).toBe(0);
    expect(
      createHash('sha256')
        .update(await readFile(original))
        .digest('hex'),
    ).toBe(sha256);
    expect(await readFile(join(home, 'set-aside/A.TXT'), 'utf8')).toBe('A FRAME');
    await eventually('the frame is told', async () => (await arrived()) !== 'arrived.original-differs');
    expect((await verify()).code).toBe(0);
    const left = await runProgram(process.execPath, [binary, 'restore', '--home', home]);
    expect(left).toMatchObject({ code: 0, stdout: expect.stringContaining('No original is known') });
  },
);

test.skipIf(!hasProgram('curl') || !hasSecondDevice)(
  'a frame whose copy was altered or is gone is a doubt again until there is a new one, and nothing is deleted',
  async () => {
    const copy = join(place, 'jobs/unsorted/originals/cam1/A.DNG');
    const arrivedIs = (judgement: string): Promise<unknown> =>
      eventually(`arrived is ${judgement}`, async () => {
        const [frame] = await station.frames();
        return frame?.verdicts.arrived.judgement === judgement;
      });
    const { bytes } = await renderFrame({ sizeMegapixels: 0.5, noiseSeed: 11 });
    station = await startStation(home, ['--copy', place]);
    await upload('A.DNG', bytes);
    await arrivedIs('good');
    await station.stop();
    await writeFile(copy, bytes.toReversed());
    expect(await verify('--mend')).toMatchObject({
      code: 1,
      report: { copies: [{ findings: [{ code: 'copy.altered' }], setAside: 1 }] },
    });
    // Nothing can be copied while a file lies where copies arrive.
    await rm(join(place, 'arriving'), { recursive: true });
    await writeFile(join(place, 'arriving'), '');
    station = await startStation(home, ['--copy', place]);
    await arrivedIs('doubt');
    await rm(join(place, 'arriving'));
    await arrivedIs('good');
    expect((await readFile(copy)).equals(bytes)).toBe(true);
    expect((await readFile(join(place, 'set-aside/A.DNG'))).equals(bytes.toReversed())).toBe(true);
    expect(await verify()).toMatchObject({ code: 0, report: { fine: true } });
  },
);

test.skipIf(!hasProgram('curl') || !hasSecondDevice)(
  'what verifying finds altered is told on the frame, with its cure, until it is mended, also after a restart',
  async () => {
    const original = join(home, 'jobs/unsorted/originals/cam1/A.DNG');
    const copy = join(place, 'jobs/unsorted/originals/cam1/A.DNG');
    const arrivedSays = (code: string, text: string): Promise<unknown> =>
      eventually(`arrived says ${code}`, async () => {
        const [finding] = (await station.frames())[0]?.verdicts.arrived.findings ?? [];
        return finding?.code === code && sentence(finding).includes(text);
      });
    const placeSays = (code: string | null): Promise<unknown> =>
      eventually(`the place says ${code}`, async () => {
        const answer = await fetch(`${station.ready.web}/api/v1/station`);
        const { secondPlaces } = (await answer.json()) as {
          secondPlaces: { trouble: { code: string } | null }[];
        };
        return secondPlaces[0] !== undefined && (secondPlaces[0].trouble?.code ?? null) === code;
      });
    const { bytes } = await renderFrame({ sizeMegapixels: 0.5, noiseSeed: 12 });
    const altered = Uint8Array.from(bytes, (byte, at) => (at === 5000 ? byte ^ 1 : byte));
    station = await startStation(home, ['--copy', place]);
    await upload('A.DNG', bytes);
    await arrivedSays('arrived.whole', 'two places');

    await writeFile(copy, altered);
    expect((await verify()).code).toBe(1);
    await arrivedSays('arrived.copy-bad', 'setside verify --mend');
    await placeSays('copy.found-bad');
    await station.stop();
    station = await startStation(home, ['--copy', place]);
    await arrivedSays('arrived.copy-bad', place);
    await station.stop();
    expect(await verify('--mend')).toMatchObject({ code: 1, report: { copies: [{ setAside: 1 }] } });
    station = await startStation(home, ['--copy', place]);
    await arrivedSays('arrived.whole', 'two places');
    await placeSays(null);

    await writeFile(original, altered);
    expect((await verify()).code).toBe(1);
    await arrivedSays('arrived.original-differs', place);
    await rename(original, `${original}.altered`);
    await writeFile(original, await readFile(copy));
    expect((await verify()).code).toBe(0);
    await arrivedSays('arrived.whole', 'two places');
  },
);

test.skipIf(!hasProgram('curl'))(
  'a frame whose original went bad is good again when the camera sends it again, with all that was chosen for it',
  async () => {
    const { bytes } = await renderFrame({ sizeMegapixels: 0.5, noiseSeed: 13 });
    const original = join(home, 'jobs/unsorted/originals/cam1/A.DNG');
    station = await startStation(home);
    await upload('A.DNG', bytes);
    const [frame] = await station.frames();
    const marked = await fetch(`${station.ready.web}/api/v1/frames/${frame?.id}`, {
      method: 'PATCH',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ mark: 'hero' }),
    });
    expect(marked.status).toBe(200);
    const altered = bytes.toReversed();
    await writeFile(original, altered);
    expect((await verify()).code).toBe(1);
    const judged = (judgement: string): Promise<unknown> =>
      eventually(`arrived is ${judgement}`, async () => {
        const frames = await station.frames();
        return frames.length === 1 && frames[0]?.verdicts.arrived.judgement === judgement;
      });
    await judged('bad');
    await upload('A.DNG', bytes);
    // In one place only.
    await judged('doubt');
    expect((await station.frames())[0]).toMatchObject({ id: frame?.id, mark: 'hero' });
    const answer = await fetch(`${station.ready.web}/api/v1/frames/${frame?.id}/files/A.DNG`);
    expect(Buffer.from(await answer.arrayBuffer()).equals(bytes)).toBe(true);
    expect((await readFile(original)).equals(altered)).toBe(true);
    expect((await verify()).code).toBe(0);
  },
);

test('a place on the same disk as the originals is said in the terminal', async () => {
  const folder = `${home}-copy`;
  station = await startStation(home, ['--copy', folder]);
  try {
    const told = sentence({ code: 'copy.same-device', args: { folder } });
    await eventually('it is said', async () => station.stderr().includes(told));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});

test.skipIf(!hasProgram('curl') || !hasSecondDevice)(
  'a place in memory is said in the terminal and on the page, with what to do, and does not count',
  async () => {
    await rm(join(home, 'setside.json'));
    station = await startStation(home, ['--copy', place]);
    await upload('A.TXT', 'a frame');
    await copied('A.TXT');
    const finding = { code: 'copy.in-memory', args: { folder: place } };
    expect(station.stderr()).toContain(sentence(finding));
    expect(sentence(finding)).toContain('Choose a folder on another disk');
    const answer = await fetch(`${station.ready.web}/api/v1/station`);
    expect(await answer.json()).toMatchObject({ secondPlaces: [{ otherDevice: false, trouble: finding }] });
    const [frame] = await station.frames();
    expect(frame?.files[0]).toMatchObject({ copies: 0, places: [{ otherDevice: false }] });
  },
);

test.skipIf(!hasProgram('curl'))(
  'a place that is pulled out never holds up the camera, is said, and is caught up with',
  async () => {
    station = await startStation(home, ['--copy', place]);
    await upload('A.TXT', 'first');
    await copied('A.TXT');
    const away = `${place}-away`;
    await rename(place, away);
    await upload('B.TXT', 'second');
    const trouble = await eventually('the page hears of it', async () => {
      const answer = await fetch(`${station.ready.web}/api/v1/station`);
      const { secondPlaces } = (await answer.json()) as { secondPlaces: { trouble: null | object }[] };
      return secondPlaces[0]?.trouble;
    });
    expect(trouble).toMatchObject({ code: 'copy.away' });
    expect(station.stderr()).toContain(sentence({ code: 'copy.away', args: { folder: place } }));
    await rename(away, place);
    await copied('B.TXT');
    expect(await readFile(join(place, 'jobs/unsorted/originals/cam1/B.TXT'), 'utf8')).toBe('second');
  },
);

test.skipIf(!hasProgram('curl') || !hasProgram('mkfifo'))(
  'a place whose disk does not answer holds up neither the camera nor the end of the station',
  async () => {
    station = await startStation(home, ['--copy', place]);
    await upload('A.TXT', 'first');
    await copied('A.TXT');
    // A call that never comes back, as from a network disk that is gone: nobody ever writes into this pipe.
    const marker = join(place, 'setside-copy.json');
    await rm(marker);
    expect((await runProgram('mkfifo', [marker])).code).toBe(0);
    await upload('B.TXT', 'second');
    await upload('C.TXT', 'third');
    const frames = await station.frames();
    expect(frames.map(({ files }) => files[0]?.copies)).toEqual([hasSecondDevice ? 1 : 0, 0, 0]);
    await station.stop();
    expect(station.process.exitCode).toBe(0);
  },
);

test('what cannot be a second place is refused at the start with what to do', async () => {
  station = await startStation(home);
  for (const folder of ['', dirname(home)]) {
    const wrong = await runProgram(process.execPath, [binary, 'station', '--home', home, '--copy', folder]);
    expect(wrong.code, folder).toBe(2);
    expect(wrong.stderr).toMatch(/--copy: .*(overlap|without a name).*on another disk\./s);
  }
});

/** Mounting takes root's rights. */
test.skipIf(process.getuid?.() !== 0 || !hasProgram('curl') || !hasProgram('mount'))(
  'a place that cannot be written is said, the camera goes on, and it is caught up with when it can',
  async ({ skip }) => {
    if ((await runProgram('mount', ['-t', 'tmpfs', '-o', 'ro,size=1g', 'tmpfs', place])).code !== 0)
      skip('no mount');
    try {
      station = await startStation(home, ['--copy', place]);
      await upload('A.TXT', 'first');
      await eventually('it is said', async () =>
        station.stderr().includes('Nothing can be written to the second'),
      );
      expect((await station.frames())[0]?.files[0]).toMatchObject({ copies: 0, places: [] });
      await runProgram('mount', ['-o', 'remount,rw', place]);
      await copied('A.TXT');
      await station.stop();
    } finally {
      await runProgram('umount', [place]);
    }
  },
);
