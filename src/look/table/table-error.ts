import { applyMatrix, d65Xyz, deltaE2000, rgbSpaces, type Vector3, xyzToLab } from '../../colour/index.ts';
import type { Stage } from '../stages/stage.ts';

/** How far a table is from its formula over a set of colours, CIEDE2000 of what is shown. */
export interface TableError {
  readonly mean: number;
  /** 99.9th percentile. */
  readonly p999: number;
  readonly max: number;
}

/** What a table of a look should keep: nobody sees a tenth of this. */
export const tableErrorGoal = { mean: 0.05, p999: 0.5 } as const;

/** Compares two ways from light to display-linear Rec.2020; what lies outside 0 … 1 is cut, as on a screen. */
export function compareStages(exact: Stage, table: Stage, colours: readonly Vector3[]): TableError {
  const differences = colours
    .map((colour) => deltaE2000(shownLab(exact(colour)), shownLab(table(colour))))
    .sort((first, second) => first - second);
  const sum = differences.reduce((total, difference) => total + difference, 0);
  const last = differences.length - 1;
  return {
    mean: sum / differences.length,
    p999: differences[Math.ceil(last * 0.999)] ?? 0,
    max: differences[last] ?? 0,
  };
}

function shownLab([r, g, b]: Vector3): Vector3 {
  return xyzToLab(applyMatrix(rgbSpaces.rec2020.toXyz, [cut(r), cut(g), cut(b)]), d65Xyz);
}

function cut(value: number): number {
  return Math.min(1, Math.max(0, value));
}

/**
 * Scene light that a picture may hold: from five stops below grey to three above, from grey to nearly pure colours, evenly
 * spread but without a pattern (J. H. Halton, Numer. Math. 2 (1960) 84-90).
 */
export function probeColours(count: number): readonly Vector3[] {
  return Array.from({ length: count }, (_, index) => {
    const at = (base: number): number => halton(index + 1, base);
    const light = 0.18 * 2 ** (8 * at(2) - 5);
    const purity = 0.95 * at(3) ** 1.5;
    const channel = (base: number): number => light * (1 - purity * at(base));
    return [channel(5), channel(7), channel(11)];
  });
}

function halton(index: number, base: number): number {
  let [left, share, value] = [index, 1 / base, 0];
  while (left > 0) {
    value += share * (left % base);
    left = Math.floor(left / base);
    share /= base;
  }
  return value;
}
