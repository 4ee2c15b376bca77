import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { openKeep } from '../keep/index.ts';
import { changeCameras, newCamera } from './cameras/camera-file.ts';
import { Closers } from './closers.ts';
import { resolveOptions } from './core/options.ts';
import { openShelves } from './open-shelves.ts';

const home = mkdtempSync(join(tmpdir(), 'setside-shelves-'));
afterAll(() => rmSync(home, { recursive: true }));

test('a home that another station holds is left without a camera of ours', async () => {
  const held = await openKeep({
    home,
    inspect: async () => ({ kind: 'unknown' }),
    newId: () => 'id',
    now: Date.now,
    jobOf: () => 'unsorted',
    diskFloorBytes: 0,
    hashWorkers: 0,
  });
  const closers = new Closers(() => {});
  try {
    const opened = openShelves(resolveOptions([], home), Date.now, () => {}, closers);
    await expect(opened).rejects.toMatchObject({ code: 'home-in-use' });
    expect(readdirSync(join(home, 'keys'))).toEqual([]);
  } finally {
    await closers.closeAll();
    await held.close();
  }
});

test('a start that is refused for a watch says nothing of a second place, and how the camera is added here', async () => {
  const own = mkdtempSync(join(tmpdir(), 'setside shelves-'));
  // Not the first start, which would make the camera.
  mkdirSync(join(own, 'keys'));
  await changeCameras(join(own, 'keys'), () => [newCamera('cam1')]);
  const said: string[] = [];
  const closers = new Closers(() => {});
  // No folder can be made below a file, so this second place would speak at once.
  const copy = [join(import.meta.filename, 'place')];
  const options = resolveOptions([{ copy, watch: [{ camera: 'kiln2', folder: '/media/card' }] }], own);
  const log = (_level: string, { code }: { readonly code: string }): void => void said.push(code);
  const refused = await openShelves(options, Date.now, log, closers).catch((thrown: unknown) => thrown);
  await closers.closeAll();
  expect(refused).toMatchObject({
    code: 'bad-option',
    cure: `There is only cam1. Add it: setside camera add kiln2 --home '${own}'`,
  });
  expect(said).toEqual([]);
  rmSync(own, { recursive: true });
});
