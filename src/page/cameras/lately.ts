import type { CameraEntry } from '../../contract/index.ts';

type Line = CameraEntry['log'][number];

/** Lines of a camera's log that are shown. */
export const latelyLines = 4;

/** What happens all day long and asks nothing of anybody. */
const chatter: ReadonlySet<string> = new Set([
  'line.connected',
  'line.logged-in',
  'line.disconnected',
  'line.upload-started',
  'line.upload-resumed',
  'line.upload-kept',
]);

/** The newest of a camera's log, in its order: what went wrong before what always happens. */
export function latelyOf(log: readonly Line[]): readonly Line[] {
  const newestFirst = [...log].reverse();
  const troubles = newestFirst.filter(({ finding }) => !chatter.has(finding.code));
  const others = newestFirst.filter(({ finding }) => chatter.has(finding.code));
  const shown = new Set([...troubles, ...others].slice(0, latelyLines));
  return log.filter((line) => shown.has(line));
}
