import { createHash } from 'node:crypto';
import { copyFile, mkdir, readdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { station as stationShape } from '../../src/contract/index.ts';
import { renderFrame } from '../../src/stand-in/index.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** The whole station with a card beside it. */
let home: string;
let place: string;
let card: string;
let station: RunningStation;

beforeEach(async () => {
  home = await newHome();
  place = await newHome();
  card = join(place, 'card');
  await mkdir(join(card, 'DCIM/100SETSD'), { recursive: true });
});
afterEach(async () => {
  await station.stop();
  await removeHome(home);
  await removeHome(place);
});

const begin = async (...more: string[]): Promise<void> => {
  station = await startStation(home, ['--watch', `cam1=${card}`, ...more]);
};

const originals = (): Promise<string[]> => readdir(join(home, 'jobs/unsorted/originals/cam1/DCIM/100SETSD'));

test('what is copied onto a watched card becomes a frame, once, also after a restart', async () => {
  const { bytes } = await renderFrame({ sizeMegapixels: 0.5, noiseSeed: 7 });
  const source = join(place, 'source.dng');
  await writeFile(source, bytes);
  await begin();
  await copyFile(source, join(card, 'DCIM/100SETSD/QMST0001.DNG'));
  const frame = await eventually('it is kept', async () =>
    (await station.frames()).find(({ files }) => files[0]?.state === 'whole'),
  );
  expect(frame.files).toMatchObject([
    { name: 'QMST0001.DNG', sha256: createHash('sha256').update(bytes).digest('hex') },
  ]);
  await station.stop();
  await begin();
  await copyFile(source, join(card, 'DCIM/100SETSD/QMST0002.DNG'));
  await eventually('the second is kept', async () => {
    const frames = await station.frames();
    return frames.length === 2 && frames.every(({ files }) => files[0]?.state === 'whole');
  });
  expect(station.stderr()).toMatch(/QMST0002\.DNG started/);
  expect(station.stderr()).not.toMatch(/QMST0001\.DNG started/);
  expect(await originals()).toEqual(['QMST0001.DNG', 'QMST0002.DNG']);
});

test('a watched folder’s camera is made at the first start; later one that is not there is refused, by name', async () => {
  station = await startStation(home, ['--watch', `card=${card}`]);
  expect(station.ready.cameras.map(({ name }) => name)).toEqual(['cam1', 'card']);
  await station.stop();
  await expect(startStation(home, ['--watch', `cam9=${card}`])).rejects.toThrow(/no camera "cam9"/);
  await begin();
});

test('the station’s own folders are not watched: its keys and journal are no camera’s files', async () => {
  for (const folder of [home, join(home, 'jobs'), dirname(home)]) {
    await expect(startStation(home, ['--watch', `cam1=${folder}`])).rejects.toThrow(/overlap/);
  }
  await begin();
});

test('an ended camera’s folder does not come in, which the page and the log say, and does once it is let in again', async () => {
  await begin();
  // Else nobody could come in any more, and this station would have no camera to tell of.
  await fetch(`${station.ready.web}/api/v1/cameras`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ name: 'cam2' }),
  });
  const end = async (ended: boolean): Promise<void> => {
    await fetch(`${station.ready.web}/api/v1/cameras/cam1`, {
      method: 'PATCH',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ ended }),
    });
  };
  const told = 'is not watched while cam1 is ended';
  await eventually('it is watched', async () => station.stderr().includes('is watched'));
  await end(true);
  await eventually('it is said', async () => station.stderr().includes(told));
  const answer = stationShape.parse(await (await fetch(`${station.ready.web}/api/v1/station`)).json());
  expect(answer.cameras[0]).toMatchObject({ ended: true, watched: [card] });
  await station.stop();
  const other = join(place, 'other');
  await mkdir(other);
  await begin('--watch', `cam2=${other}`);
  await eventually('it is said at the next start too', async () => station.stderr().includes(told));
  const { bytes } = await renderFrame({ sizeMegapixels: 0.1, noiseSeed: 8 });
  await writeFile(join(card, 'DCIM/100SETSD/QMST0001.DNG'), bytes);
  // What came later into a folder that is watched has been taken: so would this have been.
  await writeFile(join(other, 'QMST0002.DNG'), bytes);
  await eventually('the other camera’s is kept', async () =>
    (await station.frames()).some(({ files }) => files[0]?.state === 'whole'),
  );
  expect((await station.frames()).map(({ camera }) => camera)).toEqual(['cam2']);
  await end(false);
  await eventually('it is taken', async () =>
    (await station.frames()).some(({ camera, files }) => camera === 'cam1' && files[0]?.state === 'whole'),
  );
});
