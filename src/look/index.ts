/** look: tone and colour as data. `compileLook` gives the table; `develop` applies it. */

export { canonicalJson, type Json } from './canonical-json.ts';
export {
  type CompiledLook,
  type CurveTable,
  compileLook,
  isWithinGoal,
  type LookTable,
  type TableSize,
} from './compile.ts';
export { type CurveFunction, type CurveShape, curveFindings, curveFunction } from './curve.ts';
export { clfFunction } from './exchange/apply-clf.ts';
export type { ClfDocument, ClfNode } from './exchange/clf.ts';
export {
  type Converted,
  convertDocument,
  type DocumentForm,
  documentForms,
  exportedTable,
  exportLook,
  isNothingForATable,
  lookOfDocument,
  tableFindings,
} from './exchange/convert.ts';
export {
  clfToCorrections,
  correctionToClf,
  correctionToLook,
  lookToCorrection,
} from './exchange/corrections.ts';
export { defaultExchangeLimits, type ExchangeLimits } from './exchange/limits.ts';
export { type ExportedLook, lookToClf, type TableNodes } from './exchange/look-to-clf.ts';
export type { ReadDocument } from './exchange/problem.ts';
export { type ColorCorrection, readCdl } from './exchange/read-cdl.ts';
export { readClf } from './exchange/read-clf.ts';
export { type AnyDocument, type ReadAnyDocument, readDocument } from './exchange/read-document.ts';
export { type CdlKind, writeCdl } from './exchange/write-cdl.ts';
export { writeClf } from './exchange/write-clf.ts';
export { falloffGain, falloffSteepness, halfDiagonalPx } from './falloff.ts';
export { fitGamut } from './fit-gamut.ts';
export { moved, type Placing, placeOf, sharesToOriginal } from './geometry/place-of.ts';
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
  bandsMax,
  type Cdl,
  type CharacteristicCurve,
  curveSchema,
  type Geometry,
  type HueBand,
  type Look,
  type LookInput,
  lookSchema,
} from './schema.ts';
export { applyCdl, isNeutralCdl } from './stages/cdl.ts';
export { areNeutralBands } from './stages/hue-bands.ts';
export { isNeutralTint } from './stages/tint.ts';
export { interpolate, type Lattice, lookUpLattice } from './table/lattice.ts';
export { latticeNumbers } from './table/lattice-numbers.ts';
export { type Shaper, shape, unshape } from './table/shaper.ts';
export { type TableError, tableErrorGoal } from './table/table-error.ts';
export { tableHash } from './table-hash.ts';
