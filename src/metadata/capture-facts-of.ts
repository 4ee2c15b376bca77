import type { CaptureFacts, Orientation, ShutterTime } from '../facts/index.ts';
import type { Inspection, PictureTags } from '../formats/index.ts';
import { exifMomentOf } from './exif-time.ts';
import { focusAreaOf } from './focus-area.ts';
import { cleanText } from './text.ts';
import { withoutUndefined } from './without-undefined.ts';

/** What a camera says of an exposure, from the tags that the file's own structure gave. */
export function captureFactsOf(
  inspection: Pick<Inspection, 'tags' | 'pictureWidthPx' | 'pictureHeightPx'>,
  options: {
    /** Where the camera writes no offset its clock is read so many minutes east of UTC. */
    readonly zoneOffsetMinutes: number;
  },
): CaptureFacts {
  const { tags } = inspection;
  return withoutUndefined<CaptureFacts>({
    cameraMake: cleanText(tags.make),
    cameraModel: cleanText(tags.model) ?? cleanText(tags.uniqueCameraModel),
    cameraSerial: cleanText(tags.serialNumber),
    lensModel: cleanText(tags.lensModel),
    exposureTimeS: exposureTimeOf(tags),
    fNumber: fNumberOf(tags),
    sensitivity: sensitivityOf(tags),
    ...qualityOf(tags),
    focalLengthMm: positive(tags.focalLength),
    focalLength35Mm: positive(tags.focalLengthIn35mmFilm),
    subjectDistanceM: distanceOf(tags.subjectDistance),
    focusArea: focusAreaOf(tags.subjectArea, inspection) ?? focusAreaOf(tags.subjectLocation, inspection),
    shutter: shutterOf(tags, options.zoneOffsetMinutes),
    orientation: orientationOf(tags.orientation),
    widthPx: inspection.pictureWidthPx ?? undefined,
    heightPx: inspection.pictureHeightPx ?? undefined,
  });
}

/** How the camera was set beside its dials: Exif 2.32 tables 7 and 8, TIFF 6.0 for what describes the picture. */
function qualityOf(tags: PictureTags): CaptureFacts {
  const { exposureProgram, exposureMode, compression } = tags;
  return withoutUndefined<CaptureFacts>({
    exposureProgram:
      exposureProgram !== undefined && programs.has(exposureProgram) ? exposureProgram : undefined,
    inBracket: exposureMode === 2 ? true : undefined,
    whiteBalance: whiteBalances.get(tags.whiteBalance),
    compressedBitsPerPixel: positive(tags.compressedBitsPerPixel),
    compression: positive(compression),
    bitsPerSample: positive(tags.bitsPerSample),
  });
}

/** ExposureProgram (0x8822): 0 is not defined, beyond 8 is reserved. */
const programs = new Set([1, 2, 3, 4, 5, 6, 7, 8]);
/** WhiteBalance (0xA403); anything else is reserved. */
const whiteBalances = new Map<number | undefined, 'auto' | 'manual'>([
  [0, 'auto'],
  [1, 'manual'],
]);

/** A figure that means something: cameras write zero, 0/0 or 1/0 for "unknown". */
function positive(figure: number | undefined): number | undefined {
  return figure !== undefined && Number.isFinite(figure) && figure > 0 ? figure : undefined;
}

/** Exif 2.32: a numerator of 0xffffffff is infinity, 0 is unknown. */
function distanceOf(metres: number | undefined): number | undefined {
  return metres !== undefined && metres < 1e6 ? positive(metres) : undefined;
}

/**
 * The APEX value stands in only where the plain one is not there at all: where that is zero, the camera does not know,
 * and writes a placeholder in the other as well. Tv = -log2(t), Av = 2 log2(N): Exif 2.32 annex C.
 */
function exposureTimeOf(tags: PictureTags): number | undefined {
  if (tags.exposureTime !== undefined) return positive(tags.exposureTime);
  return tags.shutterSpeedValue === undefined ? undefined : positive(2 ** -tags.shutterSpeedValue);
}

function fNumberOf(tags: PictureTags): number | undefined {
  if (tags.fNumber !== undefined) return positive(tags.fNumber);
  return tags.apertureValue === undefined ? undefined : positive(2 ** (tags.apertureValue / 2));
}

/** 16 bits end at 65535; from there on Exif 2.3 and later write the figure into one of three longer tags. */
function sensitivityOf(tags: PictureTags): number | undefined {
  if (tags.photographicSensitivity !== undefined && tags.photographicSensitivity !== 65_535) {
    return positive(tags.photographicSensitivity);
  }
  return (
    positive(tags.standardOutputSensitivity) ??
    positive(tags.recommendedExposureIndex) ??
    positive(tags.isoSpeed) ??
    positive(tags.photographicSensitivity)
  );
}

/**
 * When the shutter fired: DateTimeOriginal, else DateTimeDigitized, which for a camera is the same moment. DateTime is
 * the last change of the file and says nothing of the shutter.
 */
function shutterOf(tags: PictureTags, zoneOffsetMinutes: number): ShutterTime | undefined {
  const original = {
    dateTime: tags.dateTimeOriginal,
    subSeconds: tags.subSecTimeOriginal,
    offset: tags.offsetTimeOriginal ?? offsetOfSameMoment(tags),
  };
  const digitized = {
    dateTime: tags.dateTimeDigitized,
    subSeconds: tags.subSecTimeDigitized,
    offset: tags.offsetTimeDigitized,
  };
  return exifMomentOf(original, zoneOffsetMinutes) ?? exifMomentOf(digitized, zoneOffsetMinutes);
}

/** OffsetTime belongs to DateTime; it serves where both moments are written as the same one. */
function offsetOfSameMoment(tags: PictureTags): string | undefined {
  return tags.dateTime === tags.dateTimeOriginal ? tags.offsetTime : undefined;
}

/** Exif 2.32 knows 1 to 8; anything else, 0 included, is unknown. */
function orientationOf(code: number | undefined): Orientation | undefined {
  const known: readonly Orientation[] = [1, 2, 3, 4, 5, 6, 7, 8];
  return known.find((orientation) => orientation === code);
}
