import { createHash } from 'node:crypto';
import { copyFile, mkdir, readdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
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

const begin = async (): Promise<void> => {
  station = await startStation(home, ['--watch', `cam1=${card}`]);
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

test('a camera that is not there is refused at the start, by name', async () => {
  await expect(startStation(home, ['--watch', `cam9=${card}`])).rejects.toThrow(/no camera "cam9"/);
  await begin();
});

test('the station’s own folders are not watched: its keys and journal are no camera’s files', async () => {
  for (const folder of [home, join(home, 'jobs'), dirname(home)]) {
    await expect(startStation(home, ['--watch', `cam1=${folder}`])).rejects.toThrow(/overlap/);
  }
  await begin();
});
