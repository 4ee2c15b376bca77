/** Codes of the failures this room's work can end in. Raised by whoever implements `RawDecoder` and by `develop` itself. */
export const developErrors = {
  /** The decoder knows no picture in these bytes, or the maker's compression is beyond it. */
  'raw-cannot-decode':
    'The raw data cannot be decoded here: the decoder does not know this camera, or how it packs its raws. The original was not touched',
  /** The decoder gives up on pictures with an edge under 22 pixels. */
  'raw-too-small': 'The raw picture is too small to be decoded here: 22 pixels is the least for an edge',
  /** The bytes end before the raw data does. */
  'raw-cut': 'The file ends before its raw data does. What has arrived of it was not touched',
  /** Decoded, but of a layout that is not rendered here; or, of samples to be read, no 2x2 mosaic of red, green, blue. */
  'raw-unsupported-mosaic': 'The raw data is not a mosaic of red, green and blue that is known here.',
  /** Larger than the bounds of the decoder, or of rendering at full size. */
  'raw-too-large': 'The raw picture is larger than this station develops.',
  /** Nothing of the region wanted lies within the picture. */
  'region-outside': 'The region lies outside the picture.',
} as const;

export type DevelopErrorCode = keyof typeof developErrors;
