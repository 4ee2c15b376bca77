import { resolve } from 'node:path';

/**
 * Whether a second place that was once used is one no more, by the folders that the station last copied to; null, or none
 * left out, where that is not known: then every place is taken for one. A place is known by the folder it had last.
 */
export function isGivenUp(folder: string, inUse: readonly string[] | null | undefined): boolean {
  return inUse != null && !inUse.some((used) => resolve(used) === resolve(folder));
}
