const withDay = new Intl.DateTimeFormat('en-GB', {
  weekday: 'short',
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  hour: '2-digit',
  minute: '2-digit',
  hourCycle: 'h23',
  timeZoneName: 'short',
});

/** A moment in this computer's own time, with its zone: `Fri, 2 Oct 2026, 14:02 UTC`. */
export function dayAndTime(atMs: number): string {
  return withDay.format(atMs);
}
