/** develop: mosaic to picture. The decoder is declared here and brought by `workers`. */
export {
  type CalibratedMatrix,
  type ColourCalibration,
  neutralToWhite,
  shotXyzToCamera,
  whiteToNeutral,
} from './camera-colour.ts';
export { encodeTable } from './encode-table.ts';
export { type DevelopErrorCode, developErrors } from './errors.ts';
export { linearHalf } from './linear-half.ts';
export type { Crop, DecodedRaw, RawDecoder, RawHints } from './raw-decoder.ts';
export { type Rendered, type RenderSize, renderHalf } from './render-half.ts';
export { assumedHeadroomEv } from './scene-scale.ts';
