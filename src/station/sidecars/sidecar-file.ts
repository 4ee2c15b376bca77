import { constants } from 'node:fs';
import { link, mkdir, open, rename, rm } from 'node:fs/promises';
import { dirname } from 'node:path';
import { errorCode } from '../../base/index.ts';

/** Ours have about two kilobytes; whatever is longer is somebody else's, and is not read to its end. */
const readBytesMax = 64 * 1024;

/** The text at a path; null where nothing lies there. */
export async function readSidecar(path: string): Promise<string | null> {
  try {
    const file = await open(path, constants.O_RDONLY);
    try {
      const { bytesRead, buffer } = await file.read(Buffer.alloc(readBytesMax), 0, readBytesMax, 0);
      return buffer.toString('utf8', 0, bytesRead);
    } finally {
      await file.close();
    }
  } catch (thrown) {
    if (errorCode(thrown) === 'ENOENT') return null;
    throw thrown;
  }
}

/** All of the text under its name, or what lay there before: a reader never sees half of it, nor does a power cut leave that. */
export async function writeSidecar(path: string, text: string): Promise<void> {
  const beside = `${path}.new`;
  await mkdir(dirname(path), { recursive: true });
  try {
    const file = await open(beside, 'w');
    try {
      await file.writeFile(text);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, path);
  } catch (thrown) {
    await rm(beside, { force: true }).catch(() => {});
    throw thrown;
  }
}

/** Names that are tried for what is set aside; nobody edits the same sidecar more often. */
const asideMax = 1000;

/** Gives what another program wrote there a name of its own, so that it is neither lost nor taken for ours. Gives that name. */
export async function setAside(path: string): Promise<string> {
  for (let number = 1; number <= asideMax; number++) {
    const aside = path.replace(/\.xmp$/, `.aside-${number}.xmp`);
    try {
      // link(2) never replaces, which rename(2) does.
      await link(path, aside);
      await rm(path);
      return aside;
    } catch (thrown) {
      if (errorCode(thrown) !== 'EEXIST') throw thrown;
    }
  }
  throw new Error(`expected a free name beside ${path}`);
}
