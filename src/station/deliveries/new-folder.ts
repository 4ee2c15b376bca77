import { mkdir, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { nameKey, safeStem } from '../../deliver/index.ts';

/** Makes a folder for a delivery below `parent`, so that nothing of another lies in it, and returns its name. Rejects with the system's own. */
export async function newFolder(parent: string, title: string): Promise<string> {
  await mkdir(parent, { recursive: true });
  const taken = new Set((await readdir(parent)).map(nameKey));
  const stem = safeStem(title, '-9999.jsonl');
  let name = stem;
  for (let number = 2; taken.has(nameKey(name)) || taken.has(nameKey(`${name}.jsonl`)); number++)
    name = `${stem}-${number}`;
  await mkdir(join(parent, name));
  return name;
}
