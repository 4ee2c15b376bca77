import { readdirSync, rmSync, writeFileSync } from 'node:fs';
import { chmod, mkdtemp, readFile, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { changeCameras, readCameras } from './camera-file.ts';
import { CameraRoster } from './camera-roster.ts';
import type { Camera } from './core/camera.ts';
import { withAdded } from './roster-changes.ts';

let keys: string;
let roster: CameraRoster;
const unreadable: unknown[] = [];

beforeEach(async () => {
  keys = await mkdtemp(join(tmpdir(), 'setside-keys-'));
  roster = await CameraRoster.open(keys, (thrown) => unreadable.push(thrown));
});

afterEach(async () => {
  roster.close();
  unreadable.length = 0;
  await rm(keys, { recursive: true, force: true });
});

test('the first start makes a camera, in a file that only this user reads', async () => {
  expect(roster.all()).toMatchObject([{ name: 'cam1', user: 'cam1', allow: [], ended: false }]);
  expect((await stat(join(keys, 'cameras.json'))).mode & 0o777).toBe(0o600);
  const again = await CameraRoster.open(keys, () => {});
  expect(again.all()).toEqual(roster.all());
  again.close();
});

test('the first start also makes the cameras of watched folders, without a door; a later one makes none', async () => {
  const first = await mkdtemp(join(tmpdir(), 'setside-keys-'));
  try {
    const made = await CameraRoster.open(first, () => {}, ['card', 'cam1', 'card']);
    expect(made.all().map(({ name, protocols }) => [name, protocols.length])).toEqual([
      ['cam1', 3],
      ['card', 0],
    ]);
    made.close();
    const later = await CameraRoster.open(first, () => {}, ['cabel']);
    expect(later.find('cabel')).toBeNull();
    later.close();
  } finally {
    await rm(first, { recursive: true, force: true });
  }
});

test('a camera is added, changed, ended and let in again; another start knows it', async () => {
  const added = await roster.add('cam2', { allow: ['192.168.7.0/24'], protocols: ['sftp'] });
  expect(added.password).toHaveLength(16);
  const fresh = await roster.change('cam2', { newPassword: true, allow: [] });
  expect(fresh.password).not.toBe(added.password);
  await roster.change('cam2', { ended: true });
  expect(roster.active().map(({ name }) => name)).toEqual(['cam1']);
  await roster.change('cam2', { ended: false });
  expect(await readCameras(keys)).toEqual(roster.all());
});

test('names that are none, names that are taken and rules that are none are refused, and nothing changes', async () => {
  const before = roster.all();
  for (const name of ['', 'a b', '../x', '-x', 'x'.repeat(41)])
    await expect(roster.add(name)).rejects.toMatchObject({ code: 'bad-camera-name' });
  await expect(roster.add('CAM1')).rejects.toMatchObject({ code: 'camera-exists' });
  await expect(roster.add('cam2', { allow: ['somewhere'] })).rejects.toMatchObject({
    code: 'bad-allow-rule',
  });
  await expect(roster.change('cam9', {})).rejects.toMatchObject({ code: 'no-camera' });
  expect(roster.all()).toEqual(before);
  expect(await readCameras(keys)).toEqual(before);
});

test('there may be 200 cameras and no more', () => {
  let cameras: readonly Camera[] = [];
  for (let n = 1; n <= 200; n++) cameras = withAdded(cameras, `cam${n}`, {});
  expect(() => withAdded(cameras, 'one-more', {})).toThrow('already');
});

test('a change by a command beside the station is followed and told', async () => {
  const changes: (readonly Camera[])[] = [];
  roster.onChange((_, now) => changes.push(now));
  await changeCameras(keys, (cameras) => withAdded(cameras, 'cam2', {}));
  await vi.waitFor(() => expect(roster.find('cam2')).not.toBe(null), 30_000);
  expect(changes).toHaveLength(1);
});

test('a file that somebody broke leaves the cameras as they were, and is said', async () => {
  await writeFile(join(keys, 'cameras.json'), 'nonsense');
  await vi.waitFor(() => expect(unreadable).toMatchObject([{ code: 'bad-settings' }]), 30_000);
  expect(roster.active()).toHaveLength(1);
  await expect(CameraRoster.open(keys, () => {})).rejects.toMatchObject({ code: 'bad-settings' });
});

test('ten changes at once all count, and what a dead process left half written is no lock', async () => {
  await Promise.all(Array.from({ length: 10 }, (_, n) => roster.add(`b${n}`)));
  expect(await readCameras(keys)).toHaveLength(11);
  await writeFile(join(keys, 'cameras.json.new'), '[');
  const longAgo = new Date(Date.now() - 60_000);
  await utimes(join(keys, 'cameras.json.new'), longAgo, longAgo);
  await roster.add('after');
  expect(roster.find('after')).not.toBe(null);
});

test('who slept so long that another took the lock begins again, and takes nothing half written for its own', async () => {
  const [file, lock] = [join(keys, 'cameras.json'), join(keys, 'cameras.json.new')];
  const theirs = withAdded(roster.all(), 'theirs', {});
  let tries = 0;
  await changeCameras(keys, (cameras) => {
    if (++tries === 1) {
      rmSync(lock);
      writeFileSync(lock, '[');
      setTimeout(() => {
        writeFileSync(file, JSON.stringify(theirs));
        rmSync(lock);
      }, 100);
    }
    return withAdded(cameras, 'mine', {});
  });
  expect((await readCameras(keys)).map(({ name }) => name)).toEqual(['cam1', 'theirs', 'mine']);
  expect(readdirSync(keys)).toEqual(['cameras.json']);
});

test('a file of the first days, without rules and doors, is read with everything allowed', async () => {
  await writeFile(join(keys, 'cameras.json'), JSON.stringify([{ name: 'old', user: 'u', password: 'p' }]));
  await chmod(join(keys, 'cameras.json'), 0o600);
  expect(await readCameras(keys)).toEqual([
    {
      name: 'old',
      user: 'u',
      password: 'p',
      allow: [],
      protocols: ['ftp', 'ftps', 'sftp'],
      keys: [],
      rowTimeUs: null,
      ended: false,
    },
  ]);
  expect(JSON.parse(await readFile(join(keys, 'cameras.json'), 'utf8'))).toHaveLength(1);
});
