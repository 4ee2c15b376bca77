/**
 * Moments are whole milliseconds since 1970-01-01T00:00:00Z. Pure code never asks a clock: the caller passes `nowMs`.
 */
export type EpochMs = number;

const pad = (value: number, width: number): string => String(value).padStart(width, '0');

/**
 * RFC 3339 text in UTC with milliseconds, e.g. `2026-10-01T08:04:05.120Z`.
 * Computed from civil-calendar arithmetic (days-from-civil, proleptic Gregorian), so that no clock is needed.
 */
export function epochMsToRfc3339(moment: EpochMs): string {
  const days = Math.floor(moment / 86_400_000);
  const inDay = moment - days * 86_400_000;
  const { year, month, day } = daysToCivil(days);
  const hours = Math.floor(inDay / 3_600_000);
  const minutes = Math.floor(inDay / 60_000) % 60;
  const seconds = Math.floor(inDay / 1000) % 60;
  const ms = Math.floor(inDay % 1000);
  return `${pad(year, 4)}-${pad(month, 2)}-${pad(day, 2)}T${pad(hours, 2)}:${pad(minutes, 2)}:${pad(seconds, 2)}.${pad(ms, 3)}Z`;
}

export interface CivilTime {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  /** 1 to 31. */
  readonly day: number;
  readonly hours: number;
  readonly minutes: number;
  readonly seconds: number;
  /** 0 to 999. */
  readonly ms: number;
}

/** The moment of a civil time that is read as UTC; subtract an offset to read it elsewhere. */
export function civilToEpochMs(civil: CivilTime): EpochMs {
  const days = civilToDays(civil.year, civil.month, civil.day);
  return (
    days * 86_400_000 + civil.hours * 3_600_000 + civil.minutes * 60_000 + civil.seconds * 1000 + civil.ms
  );
}

/** Days since 1970-01-01 of a Gregorian date. H. Hinnant, "chrono-Compatible Low-Level Date Algorithms" (2013), days_from_civil. */
function civilToDays(year: number, month: number, day: number): number {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
}

/** The inverse of {@link civilToDays}; same source, civil_from_days. */
function daysToCivil(daysSinceEpoch: number): { year: number; month: number; day: number } {
  const z = daysSinceEpoch + 719_468;
  const era = Math.floor(z / 146_097);
  const dayOfEra = z - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / 146_096)) /
      365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shifted = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * shifted + 2) / 5) + 1;
  const month = shifted < 10 ? shifted + 3 : shifted - 9;
  return { year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0), month, day };
}
