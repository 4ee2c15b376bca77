import { mkdir, mkdtemp, realpath, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { disksUnder, type SystemFolders, sharesDisk, sourceOf } from './disks-under.ts';

/** After the examples of proc_pid_mountinfo(5) and of sysfs-class-block (kernel.org, Documentation/ABI). */
let top = '';
let system: SystemFolders = { proc: '', sys: '' };

beforeAll(async () => {
  top = await realpath(await mkdtemp(join(tmpdir(), 'setside-disks-')));
  system = { proc: join(top, 'proc'), sys: join(top, 'sys') };
  const files: Record<string, string> = {
    'sys/devices/sda/sda1/partition': '1\n',
    'sys/devices/sda/sda2/partition': '2\n',
    'sys/devices/sdb/sdb1/partition': '1\n',
    'sys/devices/loop0/loop/backing_file': `${top}/home/image.img\n`,
    'sys/devices/dm-0/slaves/sdb1': '',
    'sys/devices/mmcblk0/mmcblk0p1/partition': '1\n',
    'home/image.img': '',
  };
  for (const [path, text] of Object.entries(files)) {
    await mkdir(dirname(join(top, path)), { recursive: true });
    await writeFile(join(top, path), text);
  }
  const blocks = ['sda/sda1', 'sda/sda2', 'sdb/sdb1', 'loop0', 'dm-0', 'mmcblk0/mmcblk0p1'];
  await mkdir(join(top, 'sys/class/block'), { recursive: true });
  for (const block of blocks)
    await symlink(
      join(top, 'sys/devices', block),
      join(top, 'sys/class/block', block.split('/').pop() ?? ''),
    );
  const mounts = [
    ['home', '/dev/sda1'],
    ['other part', '/dev/sda2'],
    ['image', '/dev/loop0'],
    ['volume', '/dev/dm-0'],
    ['card', '/dev/mmcblk0p1'],
    ['memory', 'tmpfs'],
  ] as const;
  for (const [folder] of mounts) await mkdir(join(top, folder), { recursive: true });
  await mkdir(join(top, 'proc/self'), { recursive: true });
  const line = (folder: string, source: string): string =>
    `36 35 98:0 / ${join(top, folder).replaceAll(' ', '\\040')} rw,noatime master:1 - ext3 ${source} rw,errors=continue`;
  await writeFile(
    join(top, 'proc/self/mountinfo'),
    mounts.map(([folder, source]) => line(folder, source)).join('\n'),
  );
});
afterAll(() => rm(top, { recursive: true, force: true }));

const under = (folder: string): string[] => [...disksUnder(join(top, folder), system)];

test('partitions, volumes and images lie on the disk under them', () => {
  expect(under('home')).toEqual(['sda']);
  expect(under('other part')).toEqual(['sda']);
  expect(under('image')).toEqual(['sda']);
  expect(under('volume')).toEqual(['sdb']);
  expect(under('card')).toEqual(['mmcblk0']);
  expect(under('memory')).toEqual([]);
});

test('the innermost mount holds a path, and of two at one place the later', () => {
  const text =
    '1 0 8:1 / / rw - ext4 /dev/sda1 rw\n2 1 8:2 / /a rw - ext4 /dev/sda2 rw\n3 1 8:3 / /a rw - ext4 /dev/sda3 rw';
  expect(sourceOf(text, '/a/b')).toBe('/dev/sda3');
  expect(sourceOf(text, '/ab')).toBe('/dev/sda1');
  expect(sourceOf('', '/ab')).toBe(null);
});

test('one device is one disk, whatever the system tells', () => {
  expect(sharesDisk(join(top, 'home'), join(top, 'memory'), { proc: '/nowhere', sys: '/nowhere' })).toBe(
    true,
  );
});
