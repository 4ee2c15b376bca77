import { existsSync } from 'node:fs';
import { join } from 'node:path';

const root = process.env.SETSIDE_SHARED ?? join(import.meta.dirname, '../../shared');

/** Path of a reference file or sample that lies beside the checkout, never inside it. */
export function sharedPath(name: string): string {
  return join(root, name);
}

/** Whether the samples are here; a clone somewhere else may be without them. */
export function hasShared(): boolean {
  return existsSync(join(root, 'samples')) && existsSync(join(root, 'reference'));
}
