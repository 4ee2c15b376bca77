const toTheSecond = new Intl.DateTimeFormat('en-GB', {
  hour: '2-digit',
  minute: '2-digit',
  second: '2-digit',
  hourCycle: 'h23',
});
const toTheMinute = new Intl.DateTimeFormat('en-GB', {
  hour: '2-digit',
  minute: '2-digit',
  hourCycle: 'h23',
});
const shortDay = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short' });
const calendarDay = new Intl.DateTimeFormat('en-GB', {
  weekday: 'long',
  day: 'numeric',
  month: 'long',
  year: 'numeric',
  timeZone: 'UTC',
});
const withDay = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  hour: '2-digit',
  minute: '2-digit',
  hourCycle: 'h23',
});

/** Local day and time to the second, short enough for a column: `25 Nov 14:02:11`. */
export function dayTick(atMs: number): string {
  return `${shortDay.format(atMs)} ${toTheSecond.format(atMs)}`;
}

/** A day of the calendar as it is said, `Friday 2 October 2026`; RFC 3339 full-date, whatever the zone. */
export function dayOf(date: string): string {
  const atMs = Date.parse(`${date}T00:00:00Z`);
  return Number.isNaN(atMs) ? date : calendarDay.format(atMs);
}

/** Local time of day, `14:02:11`. */
export function clockTime(atMs: number): string {
  return toTheSecond.format(atMs);
}

/** Local time of day without seconds where they are nought, `14:02`. */
export function clockTick(atMs: number): string {
  return atMs % 60_000 === 0 ? toTheMinute.format(atMs) : toTheSecond.format(atMs);
}

/** Local date and time, for moments that may lie on another day. */
export function dayAndTime(atMs: number): string {
  return withDay.format(atMs);
}
