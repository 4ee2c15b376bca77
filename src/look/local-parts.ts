import type { Look } from './schema.ts';

/** The parts of a look that look beyond the point: not in its table, for `develop` and the page to carry out. */
export type LocalParts = Pick<Look, 'falloffEv' | 'smoothing' | 'acutance' | 'grain' | 'geometry'>;
export type LocalPart = keyof LocalParts;

export function localParts({ falloffEv, smoothing, acutance, grain, geometry }: Look): LocalParts {
  return { falloffEv, smoothing, acutance, grain, geometry };
}

/** Those that would change the picture. */
export function activeParts({
  falloffEv,
  smoothing,
  acutance,
  grain,
  geometry,
}: LocalParts): readonly LocalPart[] {
  const { straightenDeg, lines, flip, crop } = geometry;
  const changes: readonly (readonly [LocalPart, boolean])[] = [
    ['falloffEv', falloffEv !== 0],
    ['smoothing', smoothing.luma !== 0 || smoothing.chroma !== 0],
    ['acutance', acutance.strength !== 0],
    ['grain', grain.density !== 0],
    ['geometry', straightenDeg !== 0 || lines !== null || flip !== 'none' || crop !== null],
  ];
  return changes.filter(([, isActive]) => isActive).map(([part]) => part);
}
