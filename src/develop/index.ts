/** develop: mosaic to picture. The decoder is declared here and brought by `workers`. */
export {
  type CalibratedMatrix,
  type ColourCalibration,
  neutralToWhite,
  shotXyzToCamera,
  whiteToNeutral,
} from './camera-colour.ts';
export { renderingEdition } from './edition.ts';
export { encodeTable } from './encode-table.ts';
export { type DevelopErrorCode, developErrors } from './errors.ts';
export { findHotPixels, type MendedPixel, withMended } from './hot-pixels.ts';
export { type BadPixels, mendBadPixels } from './lens/bad-pixels.ts';
export { correctSamples } from './lens/correct-samples.ts';
export { linearMosaic } from './linear.ts';
export { type PlacedLight, placedLight } from './local/placed-light.ts';
export { bandTaker } from './local/render-local.ts';
export { estimateNoise, type NoiseProfile } from './noise-profile.ts';
export { type OutputSpace, outputSpace } from './output-space.ts';
export { clipRegion, fullPixelsMax, type RenderSize, scaledSize } from './plan-frame.ts';
export type { ColourSource, DecodedRaw, RawDecoder, RawHints, RawLens, Unpack } from './raw-decoder.ts';
export { renderMosaic } from './render.ts';
export { type OutputTaker, outputTaker, type RenderedOutput, renderOutput } from './render-output.ts';
export type { NoiseSource, Rendered } from './rendered.ts';
export { type Scene, sceneMosaic } from './scene.ts';
export { assumedHeadroomEv } from './scene-scale.ts';
export { onTargetBalance, type TargetBalance, targetBalance } from './target-balance.ts';
