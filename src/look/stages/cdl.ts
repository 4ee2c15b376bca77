import { rgbSpaces } from '../../colour/index.ts';
import type { Cdl } from '../schema.ts';
import type { Stage } from './stage.ts';

const { encode, decode } = rgbSpaces.srgb.transfer;

/**
 * Slope, offset, power and saturation: ASC Color Decision List (ASC CDL) Transfer Functions and Interchange Syntax,
 * release 1.2 (2009), in the form without clamps that Academy S-2014-006 calls FwdNoClamp, so that colours outside a
 * smaller gamut live on: where in x slope + offset is below 0, no power is applied.
 *
 * The CDL is written for encoded pictures; here it works on display light encoded by IEC 61966-2-1 in the working
 * primaries. The weights of saturation are the CDL's own, those of ITU-R BT.709.
 */
export function cdlStage(cdl: Cdl): Stage {
  return ([r, g, b]) => {
    const [er, eg, eb] = applyCdl([encode(r), encode(g), encode(b)], cdl);
    return [decode(er), decode(eg), decode(eb)];
  };
}

/** The CDL itself, on values as they are encoded. */
export function applyCdl(
  [r, g, b]: readonly [number, number, number],
  { slope, offset, power, saturation }: Cdl,
): readonly [number, number, number] {
  const outR = raise(r * slope[0] + offset[0], power[0]);
  const outG = raise(g * slope[1] + offset[1], power[1]);
  const outB = raise(b * slope[2] + offset[2], power[2]);
  const luma = 0.2126 * outR + 0.7152 * outG + 0.0722 * outB;
  return [
    luma + saturation * (outR - luma),
    luma + saturation * (outG - luma),
    luma + saturation * (outB - luma),
  ];
}

function raise(value: number, power: number): number {
  return value < 0 ? value : value ** power;
}

export function isNeutralCdl({ slope, offset, power, saturation }: Cdl): boolean {
  return (
    slope.every((value) => value === 1) &&
    offset.every((value) => value === 0) &&
    power.every((value) => value === 1) &&
    saturation === 1
  );
}
