import {
  type Args,
  aperturePhrase,
  exposureTimePhrase,
  numberArg,
  type SentenceTable,
  textArg,
} from './phrases.ts';

/** A camera that is set otherwise than it was for the shot's reference. Codes `exposed.setting-*` come from judge. */
export const settingSentences: SentenceTable = {
  'exposed.setting-aperture': (args) => sinceReference('Aperture', args, figureOf(aperturePhrase)),
  'exposed.setting-sensitivity': (args) =>
    sinceReference(
      'Sensitivity',
      args,
      figureOf((iso) => `ISO ${Math.round(iso)}`),
    ),
  'exposed.setting-time': (args) => sinceReference('Exposure time', args, figureOf(exposureTimePhrase)),
  'exposed.setting-white-balance': (args) =>
    textArg(args, 'is') === 'auto'
      ? 'The camera chooses the white balance itself; in the reference it was set by hand.'
      : 'The white balance is set by hand; in the reference the camera chose it itself.',
  'exposed.setting-program': (args) => sinceReference('Exposure program', args, figureOf(programName)),
  'exposed.setting-format': (args) =>
    textArg(args, 'is') === 'jpeg'
      ? 'The camera sent a JPEG; the reference is a raw.'
      : 'The camera sent a raw; the reference is a JPEG.',
  'exposed.setting-size': (args) =>
    sinceReference('Size', args, (value) => `${String(value).replace(' x ', ' × ')} px`),
  'exposed.setting-depth': (args) =>
    sinceReference(
      'Depth',
      args,
      figureOf((bits) => `${Math.round(bits)} bits`),
    ),
  'exposed.setting-compression': (args) =>
    compressions.has(numberArg(args, 'was')) && compressions.has(numberArg(args, 'is'))
      ? sinceReference('Compression', args, figureOf(compressionName))
      : 'The raw is compressed by another method than the reference’s.',
  'exposed.setting-jpeg-compression': (args) => {
    const [was, is] = [numberArg(args, 'was'), numberArg(args, 'is')];
    return `The JPEG is compressed ${is < was ? 'harder' : 'less'} than the reference’s: ${decimal(is)} bits for each pixel since ${decimal(was)}.`;
  },
};

function sinceReference(what: string, args: Args, said: (value: string | number) => string): string {
  return `${what} ${said(args.is ?? 0)} since the reference’s ${said(args.was ?? 0)}.`;
}

function figureOf(said: (value: number) => string): (value: string | number) => string {
  return (value) => said(typeof value === 'number' ? value : 0);
}

/** Exif 2.32, ExposureProgram (0x8822), in the words of cameras' dials. */
const programs: ReadonlyMap<number, string> = new Map([
  [1, 'manual'],
  [2, 'automatic'],
  [3, 'aperture priority'],
  [4, 'time priority'],
  [5, 'for depth of field'],
  [6, 'for movement'],
  [7, 'for portraits'],
  [8, 'for landscapes'],
]);

function programName(code: number): string {
  return programs.get(code) ?? 'of its own';
}

/** TIFF 6.0 and DNG 1.7.1, Compression (0x0103). */
const compressions: ReadonlyMap<number, string> = new Map([
  [1, 'none'],
  [7, 'lossless'],
  [8, 'lossless'],
  [34_892, 'lossy'],
]);

function compressionName(code: number): string {
  return compressions.get(code) ?? '';
}

function decimal(value: number): string {
  return String(Math.round(value * 10) / 10);
}
