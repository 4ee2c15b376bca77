/** look: tone and colour as data. `compileLook` gives the table; `develop` applies it. */
export {
  type CompiledLook,
  type CurveTable,
  compileLook,
  isWithinGoal,
  type LookTable,
  type TableSize,
} from './compile.ts';
export { type CurveFunction, type CurveShape, curveFunction } from './curve.ts';
export { fitGamut } from './fit-gamut.ts';
export { mapKeepingHue } from './keep-hue.ts';
export { currentVersion } from './lift.ts';
export { activeParts, type LocalPart, type LocalParts } from './local-parts.ts';
export { lookFunction, workingLuminance } from './look-function.ts';
export { lookHash } from './look-hash.ts';
export { defaultLook, neutralLook } from './looks.ts';
export { type Parameter, type ParameterName, type ParameterUnit, parameters } from './parameters.ts';
export { type LookProfile, unknownProfile } from './profile.ts';
export { lookTextMax, type ReadLook, readLook, readLookText } from './read-look.ts';
export {
  type Balance,
  type Cdl,
  type CharacteristicCurve,
  curveSchema,
  type HueBand,
  type Look,
  type LookInput,
  lookSchema,
} from './schema.ts';
export { interpolate, type Lattice, lookUpLattice } from './table/lattice.ts';
export { type Shaper, shape, unshape } from './table/shaper.ts';
export { type TableError, tableErrorGoal } from './table/table-error.ts';
export { tableHash } from './table-hash.ts';
