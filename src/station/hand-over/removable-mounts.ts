import { readFile, realpath } from 'node:fs/promises';
import { join } from 'node:path';

/** Linux: what is mounted from a device that the kernel calls removable, or where desktops show what was put in. */
export async function removableMounts(): Promise<string[]> {
  const table = await readFile('/proc/self/mounts', 'utf8').catch(() => '');
  const mounts = mountsIn(table);
  const removable = await Promise.all(mounts.map(isRemovable));
  return mounts.flatMap(({ folder }, index) => (removable[index] === true ? [folder] : []));
}

interface Mount {
  readonly device: string;
  readonly folder: string;
}

/** Of `/proc/self/mounts` (proc_mounts(5)): device and folder, blanks written as `\040` (fstab(5)). */
export function mountsIn(table: string): Mount[] {
  return table.split('\n').flatMap((line) => {
    const [device, folder] = line
      .split(' ')
      .map((part) =>
        part.replace(/\\([0-7]{3})/g, (_, octal: string) => String.fromCharCode(Number.parseInt(octal, 8))),
      );
    return device?.startsWith('/dev/') === true && folder !== undefined ? [{ device, folder }] : [];
  });
}

async function isRemovable({ device, folder }: Mount): Promise<boolean> {
  if (/^\/(?:run\/)?media\//.test(folder)) return true;
  const name = device.slice('/dev/'.length);
  if (name.includes('/')) return false;
  const block = await realpath(join('/sys/class/block', name)).catch(() => null);
  if (block === null) return false;
  // A partition lies in the folder of its disk, which says it for both.
  for (const folderOfDisk of [block, join(block, '..')]) {
    const said = await readFile(join(folderOfDisk, 'removable'), 'utf8').catch(() => '');
    if (said !== '') return said.trim() === '1';
  }
  return false;
}
