import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** A published table out of test/vectors; each file names its source inside. The caller states the shape it has. */
export function readVector<T>(name: string): T {
  return JSON.parse(readFileSync(join(import.meta.dirname, 'vectors', name), 'utf8'));
}
