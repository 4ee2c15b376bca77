import { statfsSync } from 'node:fs';

/** Types of Linux's file systems that lie in memory alone (`include/uapi/linux/magic.h`: TMPFS_MAGIC, RAMFS_MAGIC). */
const tmpfsMagic = 0x01021994;
const ramfsMagic = 0x858458f6;

/**
 * Whether what is written below a folder goes with the power, by the type its file system has. What cannot be seen so: a
 * disk made of memory with an ordinary file system on it, and a server's own memory. Throws what the system throws.
 */
export function isInMemory(folder: string, typeOf: (folder: string) => number = fileSystemType): boolean {
  // The kernel keeps it in a word with a sign, which fills the upper half where the word is of 32 bits.
  const type = typeOf(folder) >>> 0;
  return type === tmpfsMagic || type === ramfsMagic;
}

function fileSystemType(folder: string): number {
  return statfsSync(folder).type;
}
