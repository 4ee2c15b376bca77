import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { isInMemory } from './in-memory.ts';

/** Linux, include/uapi/linux/magic.h, as Debian's linux-libc-dev installs it. */
const header = '/usr/include/linux/magic.h';

test.each([
  ['TMPFS_MAGIC', 0x01021994, true],
  ['RAMFS_MAGIC', 0x858458f6, true],
  ['EXT4_SUPER_MAGIC', 0xef53, false],
  ['BTRFS_SUPER_MAGIC', 0x9123683e, false],
  ['NFS_SUPER_MAGIC', 0x6969, false],
])('K11.2 %s is in memory or is not', (name, type, expected) => {
  expect(isInMemory('/anywhere', () => type)).toBe(expected);
  // A word of 32 bits with a sign.
  expect(isInMemory('/anywhere', () => type | 0)).toBe(expected);
  if (!existsSync(header)) return;
  const line = new RegExp(`^#define\\s+${name}\\s+(0x[0-9a-f]+)`, 'im').exec(readFileSync(header, 'utf8'));
  expect(Number(line?.[1])).toBe(type);
});

test.skipIf(!existsSync('/dev/shm'))(
  'K11.2 /dev/shm is in memory, as POSIX shared memory on Linux is (shm_overview(7))',
  () => {
    expect(isInMemory('/dev/shm')).toBe(true);
    expect(isInMemory('/proc')).toBe(false);
  },
);
