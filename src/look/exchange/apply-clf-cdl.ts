import type { Vector3 } from '../../colour/index.ts';
import { applyCdl } from '../stages/cdl.ts';
import type { ClfCdl } from './clf.ts';

/** The four styles of ASC_CDL in Academy S-2014-006. */
export function applyCdlStyle({ style, cdl }: ClfCdl, rgb: Vector3): Vector3 {
  switch (style) {
    case 'FwdNoClamp':
      return applyCdl(rgb, cdl);
    case 'Fwd':
      return forwardClamped(rgb, cdl);
    case 'Rev':
      return backward(rgb, cdl, cut);
    case 'RevNoClamp':
      return backward(rgb, cdl, (value) => value);
  }
}

function forwardClamped([r, g, b]: Vector3, cdl: ClfCdl['cdl']): Vector3 {
  const { slope, offset, power, saturation } = cdl;
  const outR = cut(r * slope[0] + offset[0]) ** power[0];
  const outG = cut(g * slope[1] + offset[1]) ** power[1];
  const outB = cut(b * slope[2] + offset[2]) ** power[2];
  const luma = lumaOf(outR, outG, outB);
  const saturate = (value: number): number => cut(luma + saturation * (value - luma));
  return [saturate(outR), saturate(outG), saturate(outB)];
}

/** A slope or a saturation of 0 has no way back: what it took is left as it is. */
function backward(rgb: Vector3, cdl: ClfCdl['cdl'], clamp: (value: number) => number): Vector3 {
  const { slope, offset, power, saturation } = cdl;
  const [r, g, b]: Vector3 = [clamp(rgb[0]), clamp(rgb[1]), clamp(rgb[2])];
  const luma = lumaOf(r, g, b);
  const channel = (value: number, index: 0 | 1 | 2): number => {
    const full = clamp(luma + (value - luma) / (saturation || 1));
    const root = full < 0 ? full : full ** (1 / power[index]);
    return clamp((root - offset[index]) / (slope[index] || 1));
  };
  return [channel(r, 0), channel(g, 1), channel(b, 2)];
}

function lumaOf(r: number, g: number, b: number): number {
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function cut(value: number): number {
  return Math.min(1, Math.max(0, value));
}
