import { readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type BagWork, bagWork } from '../../contract/index.ts';

/** `HOME/bag.json`: the bag that is made or checked, or was last. Without it nothing goes on by itself; the command still does. */
export async function writeBagNote(home: string, work: BagWork): Promise<void> {
  const path = join(home, 'bag.json');
  const fresh = `${path}.${process.pid}`;
  try {
    await writeFile(fresh, `${JSON.stringify(work)}\n`, { mode: 0o600 });
    await rename(fresh, path);
  } catch (cause) {
    await rm(fresh, { force: true });
    throw cause;
  }
}

/** Null where there is none, or none that can be read. */
export async function readBagNote(home: string): Promise<BagWork | null> {
  const text = await readFile(join(home, 'bag.json'), 'utf8').catch(() => 'null');
  try {
    return bagWork.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}
