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
const withDay = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  hour: '2-digit',
  minute: '2-digit',
  hourCycle: 'h23',
  timeZoneName: 'short',
});

/** `14:02` in the station's own time, as are all here. */
export function clock(atMs: number): string {
  return toTheMinute.format(atMs);
}

/** With its zone, since paper is carried away: `30 Nov 2026, 14:02 UTC`. */
export function dayAndTime(atMs: number): string {
  return withDay.format(atMs);
}

/** How moments are told that lie among these: with the day where they are of several. */
export function tickFor(momentsMs: readonly number[]): (atMs: number) => string {
  const days = new Set(momentsMs.map((atMs) => shortDay.format(atMs)));
  return (atMs) =>
    days.size > 1 ? `${shortDay.format(atMs)} ${toTheSecond.format(atMs)}` : toTheSecond.format(atMs);
}
