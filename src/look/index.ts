/** look: tone and colour as data. `compileLook` gives the table; `develop` applies it. */
export { type CompiledLook, type CurveTable, compileLook } from './compile.ts';
export { type CurveFunction, curveFunction } from './curve.ts';
export { lookHash } from './look-hash.ts';
export {
  type CharacteristicCurve,
  curveSchema,
  defaultLook,
  type Look,
  lookSchema,
  neutralLook,
} from './schema.ts';
