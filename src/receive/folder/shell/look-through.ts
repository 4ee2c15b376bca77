import type { Dirent } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { resolvePath } from '../../core/path.ts';
import type { FolderLimits } from '../core/limits.ts';
import type { NotTaken } from '../core/not-taken.ts';
import { isPassedOver } from '../core/passed-over.ts';

const separator = Buffer.from('/');

/** What lies below a folder; paths below it, `/` between names. */
export interface LookedThrough {
  /** Files that can be taken. */
  readonly files: readonly string[];
  /** What can never be: links, names that are not UTF-8 or hold what no name may. */
  readonly notTaken: readonly NotTaken[];
}

/**
 * All names below a folder. They are read as bytes, since the watcher does not tell of one that is no text. Opens no file
 * and follows no link. A folder that cannot be read, or goes away meanwhile, holds nothing.
 */
export async function lookThrough(
  root: string,
  limits: FolderLimits,
  signal: AbortSignal,
): Promise<LookedThrough> {
  const files: string[] = [];
  const notTaken: NotTaken[] = [];
  const open: { readonly whole: Buffer; readonly path: string }[] = [{ whole: Buffer.from(root), path: '' }];
  for (let next = open.pop(); next !== undefined && !signal.aborted; next = open.pop()) {
    const { whole, path } = next;
    for (const entry of await entriesOf(whole)) {
      const text = textOf(entry.name);
      const shown = path + (text ?? entry.name.toString('latin1')).replaceAll(/\p{Cc}/gu, '\uFFFD');
      if (text !== null && isPassedOver(text)) continue;
      const where = text === null ? null : resolvePath('/', path + text, limits);
      if (entry.isSymbolicLink()) notTaken.push({ path: shown, why: 'link' });
      else if (!entry.isFile() && !entry.isDirectory()) continue;
      else if (where === null) notTaken.push({ path: shown, why: 'not-utf-8' });
      else if (where.kind === 'refused') notTaken.push({ path: shown, why: where.why });
      else if (entry.isDirectory())
        open.push({ whole: Buffer.concat([whole, separator, entry.name]), path: `${path}${text}/` });
      else files.push(`${path}${text}`);
    }
  }
  return { files, notTaken };
}

async function entriesOf(folder: Buffer): Promise<Dirent<Buffer>[]> {
  try {
    return await readdir(folder, { encoding: 'buffer', withFileTypes: true });
  } catch {
    // Whatever the reason: the watcher sees the same, and a card that is pulled out has many.
    return [];
  }
}

/** Null where the bytes are no UTF-8 (RFC 3629). */
function textOf(name: Buffer): string | null {
  const text = name.toString('utf8');
  return Buffer.from(text, 'utf8').equals(name) ? text : null;
}
