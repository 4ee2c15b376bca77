import type { CameraEntry } from '../../contract/index.ts';

type Line = CameraEntry['log'][number];

/** Lines of one camera that are shown where there are few cameras, and the fewest where there are many. */
export const latelyLines = 4;
const latelyLinesMin = 2;
/** Lines in all: what is read in one look; the diary has the rest. */
export const latelyLinesMax = 16;

/** What happens all day long and asks nothing of anybody. */
const chatter: ReadonlySet<string> = new Set([
  'line.connected',
  'line.logged-in',
  'line.disconnected',
  'line.upload-started',
  'line.upload-resumed',
  'line.upload-kept',
]);

/**
 * The newest of all logs, newest first: some lines of each camera, so that one that is busy hides no other, and of
 * strangers, who stand in every log and are told once.
 */
export function latelyOfAll(cameras: readonly Pick<CameraEntry, 'log'>[]): readonly Line[] {
  const own = cameras.map(({ log }) => log.filter(({ camera }) => camera !== null));
  const strangers = new Map(
    cameras
      .flatMap(({ log }) => log.filter(({ camera }) => camera === null))
      .map((line) => [keyOf(line), line]),
  );
  const logs = [...own, [...strangers.values()].sort(byTime)].filter((log) => log.length > 0);
  const each = Math.max(latelyLinesMin, Math.min(latelyLines, Math.floor(latelyLinesMax / logs.length)));
  const shown = logs.flatMap((log) => latelyOf(log, each));
  return shown.sort(byTime).reverse().slice(0, latelyLinesMax);
}

/** That somebody came or went says nothing beside what he did. */
const comings: ReadonlySet<string> = new Set(['line.connected', 'line.disconnected']);

/** The newest of one log, in its order: what went wrong before what always happens; comings and goings where there is no more. */
export function latelyOf(log: readonly Line[], count: number = latelyLines): readonly Line[] {
  const told = log.filter(({ finding }) => !comings.has(finding.code));
  const newestFirst = told.length > 0 ? [...told].reverse() : log.slice(-1);
  const troubles = oncePerFile(newestFirst.filter(({ finding }) => !chatter.has(finding.code)));
  const others = newestFirst.filter(({ finding }) => chatter.has(finding.code));
  const shown = new Set([...troubles, ...others].slice(0, count));
  return log.filter((line) => shown.has(line));
}

/** A file that breaks off again and again takes one line, its newest, which says how often. */
function oncePerFile(newestFirst: readonly Line[]): readonly Line[] {
  const named = new Set<string>();
  return newestFirst.filter(({ finding: { code, args } }) => {
    if (code !== 'line.upload-broken-off' || args.name === undefined) return true;
    const isNews = !named.has(String(args.name));
    named.add(String(args.name));
    return isNews;
  });
}

function keyOf({ at, finding }: Line): string {
  return JSON.stringify([at, finding.code, finding.args]);
}

/** RFC 3339 in UTC with a fixed number of digits sorts as text. */
function byTime(a: Line, b: Line): number {
  return a.at < b.at ? -1 : a.at > b.at ? 1 : 0;
}
