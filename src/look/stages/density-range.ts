import type { Stage } from './stage.ts';

/**
 * The density range of the picture: its black is 10^-range of its white, as the deepest black of a paper is. Density is
 * log10 of the reciprocal of reflectance (ISO 5-1). Light is squeezed evenly into what is left: y = d + (1 - d) x.
 */
export function densityRangeStage(range: number): Stage {
  const d = 10 ** -range;
  return ([r, g, b]) => [d + (1 - d) * r, d + (1 - d) * g, d + (1 - d) * b];
}
