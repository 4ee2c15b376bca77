import type { DepthReadings } from '../../../contract/index.ts';
import { clamp, linear } from './plot-scale.ts';

type Field = NonNullable<DepthReadings['field']>;

export interface DepthDrawing {
  readonly focusX: number;
  readonly nearX: number;
  /** The right edge where it reaches as far as one can see. */
  readonly farX: number;
  readonly diffraction: { readonly nearX: number; readonly farX: number } | null;
}

/** Twice the distance of focus at the most, half of it at the least: the way a lens's own scale runs, logarithmic. */
const octaves = 1.4;

/** Limits of depth of field along a line of distances, logarithmic about the distance of focus. */
export function drawDepth(
  { distanceMm, nearMm, farMm, withDiffraction }: Field,
  width: number,
): DepthDrawing {
  const need = Math.max(
    Math.abs(Math.log2(nearMm / distanceMm)),
    farMm === null ? octaves : Math.log2(farMm / distanceMm),
  );
  // A shallow field is drawn larger, so that near and far can be told from the middle.
  const reach = clamp(need * 1.6, 0.02, octaves);
  const middle = Math.log2(distanceMm);
  const x = linear({ from: middle - reach, to: middle + reach }, { from: 0, to: width });
  const at = (mm: number | null): number => (mm === null ? width : clamp(x(Math.log2(mm)), 0, width));
  return {
    focusX: x(middle),
    nearX: at(nearMm),
    farX: at(farMm),
    diffraction:
      withDiffraction === null
        ? null
        : { nearX: at(withDiffraction.nearMm), farX: at(withDiffraction.farMm) },
  };
}
