import type { Agreement, Frame } from '../../contract/index.ts';

/** Ids of all that the station tells was said. */
export function knownIds(
  frames: readonly Pick<Frame, 'remarks'>[],
  agreements: readonly Pick<Agreement, 'id'>[],
): ReadonlySet<string> {
  const remarks = frames.flatMap((frame) => frame.remarks);
  return new Set(
    [...remarks, ...remarks.flatMap(({ answers }) => answers), ...agreements].map(({ id }) => id),
  );
}
