/** image: rasters, turned, reduced, written. Knows neither cameras nor colour spaces. */
export { bin2x2 } from './bin.ts';
export { cutOut } from './cut-out.ts';
export { encodeTiff, type TiffRaster } from './encode-tiff.ts';
export { type ExrNotes, type ExrPicture, type ExrPrimaries, encodeExr, type RgbHalf } from './exr.ts';
export { extendBorder } from './extend-border.ts';
export { embedJpegProfile } from './jpeg-profile.ts';
export {
  type Orientation,
  parseOrientation,
  type Region,
  storedPosition,
  storedRegion,
  turnUpright,
  uprightSize,
} from './orientation.ts';
export { fitLongEdge, type Raster, type Rgb8, type Rgb16, type RgbFloat, type Size } from './raster.ts';
export { readExr } from './read-exr.ts';
export { areaReducer, reduceByArea, type StripTaker } from './reduce.ts';
export { type Sharpening, sharpen } from './sharpen.ts';
export { withJfif } from './with-jfif.ts';
