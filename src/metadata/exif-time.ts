import { type CivilTime, civilToEpochMs, type EpochMs } from '../base/index.ts';

/** A moment as Exif writes it: local time, and beside it perhaps the fraction and the offset from UTC. */
export interface ExifMoment {
  /** `YYYY:MM:DD HH:MM:SS`; unknown parts are blanks. */
  readonly dateTime: string | undefined;
  /** Digits behind the decimal point of the seconds: `7` is .7 s, `007` is .007 s; blanks may pad it. */
  readonly subSeconds: string | undefined;
  /** `+HH:MM` or `-HH:MM`; blank where unknown (since Exif 2.31). */
  readonly offset: string | undefined;
}

/** A moment with how much of it was written. */
export interface KnownMoment {
  readonly atMs: EpochMs;
  readonly offsetKnown: boolean;
  readonly subSecondsKnown: boolean;
}

/**
 * The moment, or undefined where any part of date or time is blank or no such time exists. Where no offset is written
 * the camera's clock is read at `zoneOffsetMinutes` east of UTC. Exif 2.32 (CIPA DC-008-2019) section 4.6.5, tags
 * DateTimeOriginal, SubSecTimeOriginal, OffsetTimeOriginal. Fractions finer than a millisecond are cut off.
 */
export function exifMomentOf(moment: ExifMoment, zoneOffsetMinutes: number): KnownMoment | undefined {
  const civil = parseDateTime(moment.dateTime);
  if (civil === undefined) return undefined;
  const ms = parseSubSeconds(moment.subSeconds);
  const offset = parseOffset(moment.offset);
  return {
    atMs: civilToEpochMs({ ...civil, ms: ms ?? 0 }) - (offset ?? zoneOffsetMinutes) * 60_000,
    offsetKnown: offset !== undefined,
    subSecondsKnown: ms !== undefined,
  };
}

function parseDateTime(text: string | undefined): CivilTime | undefined {
  const parts = /^(\d{4}):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)$/.exec(text?.trim() ?? '');
  if (parts === null) return undefined;
  const [year, month, day, hours, minutes, seconds] = parts.slice(1).map(Number) as [
    // The pattern has exactly six groups of digits.
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const isDate = year > 0 && month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month);
  const isTime = hours < 24 && minutes < 60 && seconds < 60;
  return isDate && isTime ? { year, month, day, hours, minutes, seconds, ms: 0 } : undefined;
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

function parseSubSeconds(text: string | undefined): number | undefined {
  const digits = text?.trim() ?? '';
  return /^\d+$/.test(digits) ? Number(digits.slice(0, 3).padEnd(3, '0')) : undefined;
}

/** Offsets in use run from -12:00 to +14:00; what lies further out is a camera's mistake. */
function parseOffset(text: string | undefined): number | undefined {
  const parts = /^([+-])(\d\d):([0-5]\d)$/.exec(text?.trim() ?? '');
  if (parts === null) return undefined;
  const minutes = Number(parts[2]) * 60 + Number(parts[3]);
  const east = parts[1] === '-' ? -minutes : minutes;
  return east >= -12 * 60 && east <= 14 * 60 ? east : undefined;
}
