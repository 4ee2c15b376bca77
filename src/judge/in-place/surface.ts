import { sumSurface, surfaceSums, surfaceTerms } from '../kernels/fit-surface.ts';
import type { Level } from './level.ts';
import { solvePositive } from './solve.ts';

/** Factors of the surface of the second order through the places that count, least squares; null where they leave it open. */
export function surfaceThrough(
  { data, widthPx, heightPx }: Level,
  counting: Uint8Array,
): Float64Array | null {
  const sums = new Float64Array(surfaceSums);
  sumSurface(data, counting, widthPx, heightPx, sums);
  const rows = Array.from({ length: surfaceTerms }, (_, row) =>
    sums.slice(row * surfaceTerms, (row + 1) * surfaceTerms),
  );
  return solvePositive(rows, sums.slice(surfaceTerms * surfaceTerms));
}
