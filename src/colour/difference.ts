import type { Vector3 } from './matrix.ts';

/** CIE 1976 colour difference: the distance in L*a*b*. CIE 15:2018, 8.2.1.3. */
export function deltaE76(first: Vector3, second: Vector3): number {
  return Math.hypot(first[0] - second[0], first[1] - second[1], first[2] - second[2]);
}

const pow25to7 = 25 ** 7;

/**
 * CIEDE2000 colour difference of two L*a*b* colours, kL = kC = kH = 1. Symmetric; about 1 is just noticeable side by side.
 *
 * G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 Color-Difference Formula: Implementation Notes, Supplementary Test Data,
 * and Mathematical Observations", Color Research and Application 30 (2005) 21-30. Numbers in brackets are its equations.
 *
 * `flatLightness` leaves the weight S_L out (S_L = 1), as guidelines for reproducing flat originals do (from memory).
 */
export function deltaE2000([L1, a1, b1]: Vector3, [L2, a2, b2]: Vector3, flatLightness = false): number {
  // (2)-(7) chroma with the a* axis stretched near grey, and hue.
  const meanChroma = (Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2;
  const G = 0.5 * (1 - Math.sqrt(meanChroma ** 7 / (meanChroma ** 7 + pow25to7)));
  const a1p = (1 + G) * a1;
  const a2p = (1 + G) * a2;
  const C1p = Math.hypot(a1p, b1);
  const C2p = Math.hypot(a2p, b2);
  const h1p = hueDegrees(a1p, b1);
  const h2p = hueDegrees(a2p, b2);

  // (8)-(11) differences; a colour without chroma has no hue of its own.
  const grey = C1p * C2p === 0;
  const dhp = grey ? 0 : shortestTurnDegrees(h1p, h2p);
  const dLp = L2 - L1;
  const dCp = C2p - C1p;
  const dHp = 2 * Math.sqrt(C1p * C2p) * sinDegrees(dhp / 2);

  // (12)-(14) means.
  const Lp = (L1 + L2) / 2;
  const Cp = (C1p + C2p) / 2;
  const hp = grey ? h1p + h2p : meanHueDegrees(h1p, h2p);

  // (15)-(21) weights and the rotation in the blue region.
  const T =
    1 -
    0.17 * cosDegrees(hp - 30) +
    0.24 * cosDegrees(2 * hp) +
    0.32 * cosDegrees(3 * hp + 6) -
    0.2 * cosDegrees(4 * hp - 63);
  const dTheta = 30 * Math.exp(-(((hp - 275) / 25) ** 2));
  const RC = 2 * Math.sqrt(Cp ** 7 / (Cp ** 7 + pow25to7));
  const SL = flatLightness ? 1 : 1 + (0.015 * (Lp - 50) ** 2) / Math.sqrt(20 + (Lp - 50) ** 2);
  const SC = 1 + 0.045 * Cp;
  const SH = 1 + 0.015 * Cp * T;
  const RT = -sinDegrees(2 * dTheta) * RC;

  // (22)
  const l = dLp / SL;
  const c = dCp / SC;
  const h = dHp / SH;
  return Math.sqrt(l * l + c * c + h * h + RT * c * h);
}

function hueDegrees(a: number, b: number): number {
  if (a === 0 && b === 0) return 0;
  const angle = (Math.atan2(b, a) * 180) / Math.PI;
  return angle < 0 ? angle + 360 : angle;
}

/**
 * Opposite hues count as exactly 180° apart although rounding puts them a hair to either side: pairs 10 and 14 of the
 * published data fall on the wrong branch otherwise.
 */
const halfTurn = 180 + 1e-9;

/** From h1 to h2 the short way round, -180 … 180. */
function shortestTurnDegrees(h1: number, h2: number): number {
  const turn = h2 - h1;
  if (turn > halfTurn) return turn - 360;
  if (turn < -halfTurn) return turn + 360;
  return turn;
}

/** Equation (14): the middle of the shorter arc. */
function meanHueDegrees(h1: number, h2: number): number {
  if (Math.abs(h1 - h2) <= halfTurn) return (h1 + h2) / 2;
  return h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;
}

function sinDegrees(angle: number): number {
  return Math.sin((angle * Math.PI) / 180);
}

function cosDegrees(angle: number): number {
  return Math.cos((angle * Math.PI) / 180);
}
