import {
  adaptWhite,
  applyMatrix,
  d65Xyz,
  identityMatrix,
  type Matrix3,
  multiplyMatrices,
  rgbSpaces,
  temperatureToXy,
  type Vector3,
  xyToXyz,
  xyzToXy,
} from '../../colour/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { LookProfile } from '../profile.ts';
import type { Balance } from '../schema.ts';

const { toXyz, fromXyz } = rgbSpaces.rec2020;

/** A balance as a matrix on scene light in the working space. Findings: `look.no-as-shot-white`, `look.no-target`. */
export interface BalanceMatrix {
  readonly matrix: Matrix3;
  readonly findings: readonly Finding[];
}

/**
 * Light comes in balanced as shot: its white has become D65 by linear Bradford adaptation (ICC.1:2022, Annex E). A
 * balance of a temperature takes that back and adapts from the light it names; a neutral pointed at is itself the white
 * that is adapted to D65. The luminance of what becomes neutral stays as it is.
 */
export function balanceMatrix(balance: Balance, profile: LookProfile): BalanceMatrix {
  switch (balance.from) {
    case 'as-shot':
      return { matrix: identityMatrix, findings: [] };
    case 'temperature': {
      const white = xyToXyz(temperatureToXy(balance.temperatureK, balance.duv));
      const { asShotWhite } = profile;
      const asShot = asShotWhite === null ? d65Xyz : xyToXyz(asShotWhite);
      return {
        matrix: onWorking(multiplyMatrices(adaptWhite(white, d65Xyz), adaptWhite(d65Xyz, asShot))),
        findings: asShotWhite === null ? [{ code: 'look.no-as-shot-white', args: {} }] : [],
      };
    }
    case 'neutral':
      return { matrix: neutralMatrix(balance.rgb), findings: [] };
    case 'target':
      return profile.targetNeutral === null
        ? { matrix: identityMatrix, findings: [{ code: 'look.no-target', args: {} }] }
        : { matrix: neutralMatrix(profile.targetNeutral), findings: [] };
  }
}

function neutralMatrix(rgb: Vector3): Matrix3 {
  return onWorking(adaptWhite(xyToXyz(xyzToXy(applyMatrix(toXyz, rgb))), d65Xyz));
}

function onWorking(onXyz: Matrix3): Matrix3 {
  return multiplyMatrices(fromXyz, multiplyMatrices(onXyz, toXyz));
}
