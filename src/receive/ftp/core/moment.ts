import { civilToEpochMs, type EpochMs, epochMsToRfc3339 } from '../../../base/index.ts';

/** RFC 3659 section 2.3, time values: `YYYYMMDDHHMMSS` in UTC, with `.sss` where there is a fraction of a second. */
export function momentToTimeVal(moment: EpochMs): string {
  const digits = epochMsToRfc3339(moment).replace(/[-:TZ]/g, '');
  return digits.endsWith('.000') ? digits.slice(0, -4) : digits;
}

/** The moment of an RFC 3659 time value, or null where the text is none or names no day of the calendar. */
export function timeValToMoment(text: string): EpochMs | null {
  const match = /^(\d{4})(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)(?:\.(\d{1,9}))?$/.exec(text);
  if (match === null) return null;
  const [year = 0, month = 0, day = 0, hours = 0, minutes = 0, seconds = 0] = match.slice(1, 7).map(Number);
  const ms = Number((match[7] ?? '').padEnd(3, '0').slice(0, 3));
  const moment = civilToEpochMs({ year, month, day, hours, minutes, seconds, ms });
  // A date past the end of its month comes out as another one: only a real date reads back as it was written.
  return momentToTimeVal(moment).slice(0, 14) === text.slice(0, 14) ? moment : null;
}
