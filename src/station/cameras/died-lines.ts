import type { BrokenOffFile } from '../../keep/index.ts';
import type { LineReport } from '../../receive/index.ts';

/**
 * What the log and the diary are told of files that were on their way when the station before this one died, which could
 * say nothing itself: only those found since this start.
 */
export function diedLines(
  files: readonly BrokenOffFile[],
  startedMs: number,
  cameBy: (arrival: string) => string | null,
): LineReport[] {
  return files
    .filter(({ end, atMs }) => end === 'died' && atMs >= startedMs)
    .map(({ arrival, camera, name, sizeBytes }) => ({
      camera,
      address: '',
      connection: 0,
      change: 'note',
      finding: {
        code: 'line.upload-broken-off',
        args: { name, bytes: sizeBytes, why: 'died', via: cameBy(arrival) ?? '' },
      },
    }));
}
