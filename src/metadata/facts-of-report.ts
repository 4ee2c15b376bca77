import type { CaptureFacts } from '../facts/index.ts';
import { noTags } from '../formats/index.ts';
import { captureFactsOf } from './capture-facts-of.ts';

/**
 * The tags that {@link factsOfReport} understands, as ExifTool is asked for them. `#` asks for the figure instead of
 * the words; LensID is the lens in words, looked up from makers' codes.
 */
export const reportTags: readonly string[] = [
  'Make',
  'Model',
  'SerialNumber',
  'LensModel',
  'LensID',
  'ExposureTime#',
  'FNumber#',
  'ISO#',
  // Makers' notes have tags of the same names that count otherwise.
  'ExifIFD:ExposureProgram#',
  'ExifIFD:ExposureMode#',
  'ExifIFD:WhiteBalance#',
  'ExifIFD:CompressedBitsPerPixel#',
  'FocalLength#',
  'FocalLengthIn35mmFormat#',
  'SubjectDistance#',
  'SubjectArea',
  'SubjectLocation',
  'DateTimeOriginal',
  'SubSecTimeOriginal',
  'OffsetTimeOriginal',
  'Orientation#',
  'ImageSize#',
];

/**
 * What a full metadata reader reports of one file (ExifTool's JSON: tag names without `#` to text or figures) as the
 * facts of an exposure. Anything of another shape is left out.
 */
export function factsOfReport(
  report: Readonly<Record<string, unknown>>,
  options: { readonly zoneOffsetMinutes: number },
): CaptureFacts {
  const moment = /^(.{19})(?:\.(\d+))?(Z|[+-]\d\d:\d\d)?$/.exec(textIn(report, 'DateTimeOriginal') ?? '');
  const offset = moment?.[3] === 'Z' ? '+00:00' : moment?.[3];
  const [width, height] = (textIn(report, 'ImageSize') ?? '').split(/[ x]/).map(Number);
  const tags = {
    ...noTags,
    make: textIn(report, 'Make'),
    model: textIn(report, 'Model'),
    serialNumber: textIn(report, 'SerialNumber'),
    lensModel: textIn(report, 'LensModel') ?? knownLens(textIn(report, 'LensID')),
    exposureTime: figureIn(report, 'ExposureTime'),
    fNumber: figureIn(report, 'FNumber'),
    photographicSensitivity: figureIn(report, 'ISO'),
    exposureProgram: figureIn(report, 'ExposureProgram'),
    exposureMode: figureIn(report, 'ExposureMode'),
    whiteBalance: figureIn(report, 'WhiteBalance'),
    compressedBitsPerPixel: figureIn(report, 'CompressedBitsPerPixel'),
    focalLength: figureIn(report, 'FocalLength'),
    focalLengthIn35mmFilm: figureIn(report, 'FocalLengthIn35mmFormat'),
    subjectDistance: figureIn(report, 'SubjectDistance'),
    subjectArea: figuresIn(report, 'SubjectArea'),
    subjectLocation: figuresIn(report, 'SubjectLocation'),
    orientation: figureIn(report, 'Orientation'),
    dateTimeOriginal: moment?.[1],
    subSecTimeOriginal: textIn(report, 'SubSecTimeOriginal') ?? moment?.[2],
    offsetTimeOriginal: textIn(report, 'OffsetTimeOriginal') ?? offset,
  };
  return captureFactsOf(
    { tags, pictureWidthPx: sizeOrNull(width), pictureHeightPx: sizeOrNull(height) },
    options,
  );
}

/** JSON has turned texts made of digits into numbers. */
function textIn(report: Readonly<Record<string, unknown>>, name: string): string | undefined {
  const value = report[name];
  return typeof value === 'string' || typeof value === 'number' ? String(value) : undefined;
}

/** Codes that are not in its tables ExifTool words as "Unknown (…)". */
function knownLens(words: string | undefined): string | undefined {
  return words?.startsWith('Unknown') === true ? undefined : words;
}

function figureIn(report: Readonly<Record<string, unknown>>, name: string): number | undefined {
  const text = textIn(report, name);
  const figure = Number(text);
  return text !== undefined && text.trim() !== '' && Number.isFinite(figure) ? figure : undefined;
}

/** Several figures with blanks between them. */
function figuresIn(report: Readonly<Record<string, unknown>>, name: string): number[] | undefined {
  const text = textIn(report, name);
  return text === undefined ? undefined : text.trim().split(/\s+/).slice(0, 4).map(Number);
}

function sizeOrNull(px: number | undefined): number | null {
  return px !== undefined && Number.isSafeInteger(px) && px > 0 ? px : null;
}
