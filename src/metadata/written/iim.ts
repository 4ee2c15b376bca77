/**
 * Most bytes of a dataset's value: IPTC-NAA Information Interchange Model, version 4.2, section 6 (record 2). ExifTool's
 * table of IPTC tags has the same figures.
 */
export const iimBytesMax = {
  ObjectName: 64,
  Keywords: 64,
  SpecialInstructions: 256,
  'By-line': 32,
  'By-lineTitle': 32,
  City: 32,
  'Sub-location': 32,
  'Province-State': 32,
  'Country-PrimaryLocationCode': 3,
  'Country-PrimaryLocationName': 64,
  OriginalTransmissionReference: 32,
  Headline: 256,
  Credit: 32,
  Source: 32,
  CopyrightNotice: 128,
  'Caption-Abstract': 2000,
  'Writer-Editor': 32,
} as const;

export type IimDataset = keyof typeof iimBytesMax;

/** Whole characters of `text` up to the bytes that the dataset holds in UTF-8. */
export function iimText(dataset: IimDataset, text: string): string {
  const encoder = new TextEncoder();
  let bytes = 0;
  let kept = '';
  for (const character of text) {
    bytes += encoder.encode(character).length;
    if (bytes > iimBytesMax[dataset]) break;
    kept += character;
  }
  return kept.trimEnd();
}
