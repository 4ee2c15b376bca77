import { median } from '../../base/index.ts';
/** A wave in one part of the picture: value = cosine · cos(turn · place) + sine · sin(turn · place), EV. */
export interface CellWave {
  readonly cosine: number;
  readonly sine: number;
  /** Standard deviation of either, from what the wave leaves over. */
  readonly error: number;
}

/** What the cells of a picture say of one frequency. */
export interface Wave {
  /** The middle of all cells. */
  readonly cosine: number;
  readonly sine: number;
  readonly cells: readonly CellWave[];
  /** How many cells there are, with those that say nothing. */
  readonly all: number;
}

/** A wave that shading all but explains is not decided: determinant of both against the square of the count. */
const decidedMin = 1e-3;
/** Shading within a cell: a parabola. */
const shadingDegree = 2;

/**
 * A function from cycles over the height to the wave of that frequency in each cell, by least squares beside the cell's
 * shading; null where no cell says anything. `profiles`: light of strips from top to bottom, EV, NaN where it is not known;
 * each is cut into so many `lengths`.
 */
export function waveFinder(
  profiles: readonly Float64Array[],
  parts: number,
  lengths: number,
): (cycles: number) => Wave | null {
  const pieces = Array.from({ length: lengths }, (_, length) => {
    const [from, to] = [Math.floor((length * parts) / lengths), Math.floor(((length + 1) * parts) / lengths)];
    const basis = shadingBasis(to - from);
    const lit = profiles.map((profile) => profile.slice(from, to)).filter((cell) => !cell.some(Number.isNaN));
    for (const cell of lit) for (const shade of basis) subtract(cell, shade, dot(cell, shade));
    return { from, basis, lit, squares: lit.map((cell) => dot(cell, cell)) };
  });
  return (cycles) => {
    const cells = pieces.flatMap(({ from, basis, lit, squares }) => {
      const pair = pairOf(basis, from, (2 * Math.PI * cycles) / parts);
      return pair === null ? [] : lit.map((cell, at) => fitCell(cell, squares[at] ?? 0, pair));
    });
    if (cells.length === 0) return null;
    const [cosine, sine] = [median(cells.map((cell) => cell.cosine)), median(cells.map((cell) => cell.sine))];
    return { cosine, sine, cells, all: profiles.length * lengths };
  };
}

/** Cosine and sine of a cell, and what is left of their products once they are freed of shading. */
interface Pair {
  readonly cosine: Float64Array;
  readonly sine: Float64Array;
  readonly cc: number;
  readonly ss: number;
  readonly cs: number;
}

function pairOf(basis: readonly Float64Array[], from: number, turn: number): Pair | null {
  const count = basis[0]?.length ?? 0;
  const [cosine, sine] = [new Float64Array(count), new Float64Array(count)];
  // By turning a pointer step by step: cosines of their own took longer than all the rest.
  const [stepCos, stepSin] = [Math.cos(turn), Math.sin(turn)];
  let [c, s] = [Math.cos(turn * from), Math.sin(turn * from)];
  for (let at = 0; at < count; at++) {
    cosine[at] = c;
    sine[at] = s;
    const next = c * stepCos - s * stepSin;
    s = s * stepCos + c * stepSin;
    c = next;
  }
  let [cc, ss, cs] = [dot(cosine, cosine), dot(sine, sine), dot(cosine, sine)];
  for (const shade of basis) {
    const [byCosine, bySine] = [dot(cosine, shade), dot(sine, shade)];
    cc -= byCosine * byCosine;
    ss -= bySine * bySine;
    cs -= byCosine * bySine;
  }
  return cc * ss - cs * cs > decidedMin * count * count ? { cosine, sine, cc, ss, cs } : null;
}

/** `cell` is free of shading, so that the wave need not be. */
function fitCell(cell: Float64Array, squares: number, { cosine, sine, cc, ss, cs }: Pair): CellWave {
  const [c, s] = [dot(cell, cosine), dot(cell, sine)];
  const by = 1 / (cc * ss - cs * cs);
  const wave = { cosine: by * (ss * c - cs * s), sine: by * (cc * s - cs * c) };
  const rest = Math.max(0, squares - wave.cosine * c - wave.sine * s);
  const free = Math.max(1, cell.length - shadingDegree - 3);
  return { ...wave, error: Math.sqrt((by * Math.max(cc, ss) * rest) / free) };
}

/** Powers of the place up to {@link shadingDegree}, made orthonormal. */
function shadingBasis(count: number): Float64Array[] {
  const basis: Float64Array[] = [];
  for (let degree = 0; degree <= shadingDegree; degree++) {
    const power = Float64Array.from({ length: count }, (_, at) => ((2 * at) / (count - 1) - 1) ** degree);
    for (const earlier of basis) subtract(power, earlier, dot(power, earlier));
    const length = Math.sqrt(dot(power, power));
    basis.push(power.map((value) => value / length));
  }
  return basis;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < a.length; at++) sum += (a[at] ?? 0) * (b[at] ?? 0);
  return sum;
}

function subtract(from: Float64Array, what: Float64Array, times: number): void {
  for (let at = 0; at < from.length; at++) from[at] = (from[at] ?? 0) - times * (what[at] ?? 0);
}
