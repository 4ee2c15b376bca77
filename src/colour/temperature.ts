import type { Chromaticity } from './white-points.ts';

/**
 * Robertson's isotemperature lines: reciprocal temperature (mired), u and v (CIE 1960) on the Planckian locus, slope.
 * A. R. Robertson, "Computation of correlated color temperature and distribution temperature", JOSA 58 (1968) 1528-1535;
 * table as in Wyszecki and Stiles, "Color Science", 2nd ed., p. 228, with u at 325 mired corrected to 0.24792.
 */
const isotemperatureLines: readonly (readonly [mired: number, u: number, v: number, slope: number])[] = [
  [0, 0.18006, 0.26352, -0.24341],
  [10, 0.18066, 0.26589, -0.25479],
  [20, 0.18133, 0.26846, -0.26876],
  [30, 0.18208, 0.27119, -0.28539],
  [40, 0.18293, 0.27407, -0.3047],
  [50, 0.18388, 0.27709, -0.32675],
  [60, 0.18494, 0.28021, -0.35156],
  [70, 0.18611, 0.28342, -0.37915],
  [80, 0.1874, 0.28668, -0.40955],
  [90, 0.1888, 0.28997, -0.44278],
  [100, 0.19032, 0.29326, -0.47888],
  [125, 0.19462, 0.30141, -0.58204],
  [150, 0.19962, 0.30921, -0.70471],
  [175, 0.20525, 0.31647, -0.84901],
  [200, 0.21142, 0.32312, -1.0182],
  [225, 0.21807, 0.32909, -1.2168],
  [250, 0.22511, 0.33439, -1.4512],
  [275, 0.23247, 0.33904, -1.7298],
  [300, 0.2401, 0.34308, -2.0637],
  [325, 0.24792, 0.34655, -2.4681],
  [350, 0.25591, 0.34951, -2.9641],
  [375, 0.264, 0.352, -3.5814],
  [400, 0.27218, 0.35407, -4.3633],
  [425, 0.28039, 0.35577, -5.3762],
  [450, 0.28863, 0.35714, -6.7262],
  [475, 0.29685, 0.35823, -8.5955],
  [500, 0.30505, 0.35907, -11.324],
  [525, 0.3132, 0.35968, -15.628],
  [550, 0.32129, 0.36011, -23.325],
  [575, 0.32931, 0.36038, -40.77],
  [600, 0.33724, 0.36051, -116.45],
];

/**
 * Correlated colour temperature of a chromaticity, K, by Robertson's method; within a few kelvin from 1667 K up.
 * Chromaticities beyond the table's ends give the end's temperature: 1667 K, and 100,000 K for mired below 10.
 */
export function xyToTemperature([x, y]: Chromaticity): number {
  const u = (4 * x) / (-2 * x + 12 * y + 3);
  const v = (6 * y) / (-2 * x + 12 * y + 3);
  let before: { mired: number; distance: number } | null = null;
  for (const [mired, lineU, lineV, slope] of isotemperatureLines) {
    const distance = (v - lineV - slope * (u - lineU)) / Math.hypot(1, slope);
    if (distance <= 0) {
      if (before === null) return temperatureMax;
      const share = before.distance / (before.distance - distance);
      return Math.min(temperatureMax, 1e6 / (before.mired + share * (mired - before.mired)));
    }
    before = { mired, distance };
  }
  return 1e6 / 600;
}

const temperatureMax = 100_000;

/**
 * Chromaticity of a light from its correlated colour temperature, K, and its distance from the Planckian locus (Duv,
 * positive above it, towards green): the inverse of Robertson's method. The point on the locus lies between two of the
 * table's lines, and the way off the locus follows the isotemperature line there, which is square to the locus in
 * CIE 1960 u, v (Y. Ohno, LEUKOS 10 (2014) 47-55, for the sign of Duv). Within 0.0002 in u, v of Planck's law.
 * Temperatures are held within 1667 … 100,000 K, the table's ends.
 */
export function temperatureToXy(temperatureK: number, duv = 0): Chromaticity {
  const mired = Math.min(600, Math.max(10, 1e6 / temperatureK));
  const above = isotemperatureLines.findIndex(([lineMired]) => lineMired >= mired);
  const [before, after] = isotemperatureLines.slice(above - 1, above + 1);
  if (before === undefined || after === undefined) throw new RangeError(`no temperature: ${temperatureK}`);
  const share = (mired - before[0]) / (after[0] - before[0]);
  const between = (first: number, second: number): number => first + share * (second - first);
  // Lines fall from the upper left to the lower right: up is to the left.
  const [leftBefore, leftAfter] = [-1 / Math.hypot(1, before[3]), -1 / Math.hypot(1, after[3])];
  const upU = between(leftBefore, leftAfter);
  const upV = between(leftBefore * before[3], leftAfter * after[3]);
  const scale = duv / Math.hypot(upU, upV);
  const u = between(before[1], after[1]) + scale * upU;
  const v = between(before[2], after[2]) + scale * upV;
  // CIE 15:2018, 8.1 (CIE 1960 u, v).
  const divisor = 2 * u - 8 * v + 4;
  return [(3 * u) / divisor, (2 * v) / divisor];
}
