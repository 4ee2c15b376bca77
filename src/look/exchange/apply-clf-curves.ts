import type { ClfExponent, ClfLog, LogParams } from './clf.ts';

/** The smallest normal number of single precision, as the specification rounds it. */
const smallest = 1.175494e-38;

/** Academy S-2014-006, Log. */
export function applyLog({ style, params }: ClfLog, value: number, channel: 0 | 1 | 2): number {
  const p = params[channel];
  switch (style) {
    case 'log10':
      return Math.log10(Math.max(value, smallest));
    case 'antiLog10':
      return 10 ** value;
    case 'log2':
      return Math.log2(Math.max(value, smallest));
    case 'antiLog2':
      return 2 ** value;
    case 'linToLog':
      return toLog(p, value);
    case 'logToLin':
      return toLinear(p, value);
    case 'cameraLinToLog': {
      const { atBreak, slope, breakLinear } = straightPart(p);
      return value <= breakLinear ? atBreak + slope * (value - breakLinear) : toLog(p, value);
    }
    case 'cameraLogToLin': {
      const { atBreak, slope, breakLinear } = straightPart(p);
      return value <= atBreak ? breakLinear + (value - atBreak) / slope : toLinear(p, value);
    }
  }
}

function toLog(
  { base, logSideSlope, logSideOffset, linSideSlope, linSideOffset }: LogParams,
  x: number,
): number {
  const inside = Math.max(linSideSlope * x + linSideOffset, smallest);
  return (logSideSlope * Math.log(inside)) / Math.log(base) + logSideOffset;
}

function toLinear(p: LogParams, y: number): number {
  return (p.base ** ((y - p.logSideOffset) / p.logSideSlope) - p.linSideOffset) / p.linSideSlope;
}

/** "Solving for LogParams": the straight part meets the logarithm at the break; its slope is the logarithm's unless given. */
function straightPart(p: LogParams): {
  readonly breakLinear: number;
  readonly atBreak: number;
  readonly slope: number;
} {
  const breakLinear = p.linSideBreak ?? 0;
  const inside = p.linSideSlope * breakLinear + p.linSideOffset;
  const slope = p.linearSlope ?? (p.logSideSlope * p.linSideSlope) / (inside * Math.log(p.base));
  return { breakLinear, atBreak: toLog(p, breakLinear), slope };
}

/** Academy S-2014-006, Exponent. */
export function applyExponent({ style, params }: ClfExponent, value: number, channel: 0 | 1 | 2): number {
  const { exponent, offset } = params[channel];
  const power = style.endsWith('Rev') ? 1 / exponent : exponent;
  switch (style) {
    case 'basicFwd':
    case 'basicRev':
      return Math.max(0, value) ** power;
    case 'basicMirrorFwd':
    case 'basicMirrorRev':
      return value < 0 ? -((-value) ** power) : value ** power;
    case 'basicPassThruFwd':
    case 'basicPassThruRev':
      return value < 0 ? value : value ** power;
    case 'monCurveFwd':
      return monCurve(value, exponent, offset);
    case 'monCurveRev':
      return monCurveBack(value, exponent, offset);
    case 'monCurveMirrorFwd':
      return value < 0 ? -monCurve(-value, exponent, offset) : monCurve(value, exponent, offset);
    case 'monCurveMirrorRev':
      return value < 0 ? -monCurveBack(-value, exponent, offset) : monCurveBack(value, exponent, offset);
  }
}

/** Without an offset or a power there is no straight part to work out: it is a power, or nothing. */
function monCurve(x: number, g: number, k: number): number {
  if (k === 0 || g === 1) return x < 0 ? x : x ** g;
  return x >= k / (g - 1) ? ((x + k) / (1 + k)) ** g : x * straightSlope(g, k);
}

function monCurveBack(y: number, g: number, k: number): number {
  if (k === 0 || g === 1) return y < 0 ? y : y ** (1 / g);
  const atBreak = ((k * g) / ((g - 1) * (1 + k))) ** g;
  return y >= atBreak ? (1 + k) * y ** (1 / g) - k : y / straightSlope(g, k);
}

function straightSlope(g: number, k: number): number {
  return ((g - 1) / k) * ((k * g) / ((g - 1) * (1 + k))) ** g;
}
