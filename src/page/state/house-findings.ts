import type { Frame, Station } from '../../contract/index.ts';
import type { Finding, Judgement } from '../../facts/index.ts';
import { mergeFindings } from '../../words/index.ts';
import { clockOffBy } from './clock-off.ts';

/** What is to be said of the house rather than of the frame that is shown, with how much it matters. */
export interface HouseFinding {
  readonly judgement: Judgement;
  readonly finding: Finding;
  /** The frame it leads to; null where it is about none. */
  readonly frame: string | null;
}

/** Room for fewer frames than this is worth a word: about an afternoon's. */
const framesLeftLow = 500;
/** Fewer than this and somebody must make room now: about a shot's. */
const framesLeftVeryLow = 50;
/** What a frame takes while none has come, bytes: a raw of 24 megapixels. */
const usualFrameBytes = 30e6;
/** What lies in `incoming/` and no frame needs is worth a word from here on, bytes: some forty raws. */
const idleBytesWorthAWord = 1e9;

/** Found by this station to be worth a note in its terminal, but nothing that anybody must mend: the door is open. */
const doorOpenElsewhere: ReadonlySet<string> = new Set(['line.port-taken', 'line.port-forbidden']);

/** An original is not on the disk as the camera sent it: the copy in hand, or the card, may be the last good one. */
const originalLost: ReadonlySet<string> = new Set([
  'keep.originals-bad',
  'copy.originals-bad',
  'copy.original-missing',
  'copy.original-differs',
  'copy.original-unreadable',
]);

/** A second place that was trusted and takes nothing now: every new frame is in one place less until it does. */
const takesNoCopies: ReadonlySet<string> = new Set([
  'copy.away',
  'copy.silent',
  'copy.full',
  'copy.failed',
  'copy.foreign',
]);

/**
 * Everything that needs a look besides the frame that is shown: what must be done now first, each code once. `frames`
 * in order of the day.
 */
export function houseFindings(
  station: Station,
  frames: readonly Frame[],
  shownId: string | null,
): HouseFinding[] {
  const shut = station.doors
    .flatMap((door) => door.trouble ?? [])
    .filter(({ code }) => !doorOpenElsewhere.has(code));
  const silent = station.cameras.flatMap((camera) => camera.trouble ?? []);
  // Strays are told after every start: what they speak of shows as unknown at its frame.
  const kept = station.kept.map((finding) =>
    aboutTheHouse(finding.code === 'keep.journal-strays' ? 'doubt' : 'bad', finding),
  );
  const places = placeFindings(station);
  const isLoss = ({ finding }: HouseFinding): boolean => originalLost.has(finding.code);
  return inOrder([
    ...kept.filter(isLoss),
    ...places.filter(isLoss),
    ...diskFindings(station, frames),
    ...kept.filter((found) => !isLoss(found)),
    ...places.filter((found) => found.judgement === 'bad' && !isLoss(found)),
    ...brokenOffFindings(frames, shownId),
    ...shut.map((finding) => aboutTheHouse('bad', finding)),
    ...silent.map((finding) => aboutTheHouse('bad', finding)),
    ...station.cameras
      .flatMap((camera) => clockOffBy(camera) ?? [])
      .map((finding) => aboutTheHouse('doubt', finding)),
    ...places.filter(({ judgement }) => judgement !== 'bad'),
    ...incomingFindings(station).map((finding) => aboutTheHouse('doubt', finding)),
  ]);
}

/** Bad before doubt, and what is found several times in one sentence. */
export function inOrder(findings: readonly HouseFinding[]): HouseFinding[] {
  const byCode = new Map<string, [HouseFinding, ...HouseFinding[]]>();
  for (const found of findings) {
    const same = byCode.get(found.finding.code);
    if (same === undefined) byCode.set(found.finding.code, [found]);
    else same.push(found);
  }
  const merged = [...byCode.values()].map(([first, ...others]) => ({
    judgement: others.some(({ judgement }) => judgement === 'bad') ? 'bad' : first.judgement,
    finding: mergeFindings([first.finding, ...others.map(({ finding }) => finding)]),
    frame: first.frame,
  }));
  const isBad = ({ judgement }: HouseFinding): boolean => judgement === 'bad';
  return [...merged.filter(isBad), ...merged.filter((found) => !isBad(found))];
}

export function aboutTheHouse(judgement: Judgement, finding: Finding): HouseFinding {
  return { judgement, finding, frame: null };
}

/** Files that broke off and wait to be made good, and are not on their way again. The shown frame says so itself. */
function brokenOffFindings(frames: readonly Frame[], shownId: string | null): HouseFinding[] {
  return frames
    .filter(({ id, files }) => {
      if (id === shownId || !files.some(({ state }) => state === 'broken-off')) return false;
      const coming = new Set(files.filter(({ state }) => state === 'arriving').map((file) => file.name));
      return files.some((file) => file.state === 'broken-off' && !coming.has(file.name));
    })
    .map(({ id, name, verdicts }) => ({
      judgement: 'bad',
      finding: {
        code: fromFolder(verdicts.arrived) ? 'page.broken-off-folder' : 'page.broken-off',
        args: { name },
      },
      frame: id,
    }));
}

/** Of a watched folder: no camera can send it again. */
function fromFolder({ findings }: Frame['verdicts']['arrived']): boolean {
  return findings.some(({ code, args }) => code === 'arrived.broken-off' && args.via === 'folder');
}

/** That bad originals wait for a place in vain says no more than that they are bad. */
function placeFindings({ secondPlaces, kept }: Station): HouseFinding[] {
  if (secondPlaces.length === 0) return [aboutTheHouse('doubt', { code: 'page.one-place', args: {} })];
  return secondPlaces
    .flatMap(({ trouble }) => trouble ?? [])
    .filter(
      ({ code }) =>
        code !== 'copy.originals-bad' || !kept.some((found) => found.code === 'keep.originals-bad'),
    )
    .map((finding) => {
      const isBad = takesNoCopies.has(finding.code) || originalLost.has(finding.code);
      return aboutTheHouse(isBad ? 'bad' : 'doubt', finding);
    });
}

/** What is on its way or waited for has its frame to say so; the rest takes room until somebody looks at it. */
function incomingFindings({ incoming }: Station): Finding[] {
  const idle = incoming.filter(({ why }) => why !== 'arriving' && why !== 'waiting');
  const bytes = idle.reduce((sum, held) => sum + held.bytes, 0);
  if (bytes < idleBytesWorthAWord) return [];
  return [{ code: 'page.incoming-idle', args: { bytes } }];
}

function diskFindings(station: Station, frames: readonly Frame[]): HouseFinding[] {
  const { freeBytes, floorBytes } = station.disk;
  if (freeBytes === 0 || freeBytes < floorBytes)
    return [aboutTheHouse('bad', { code: 'page.disk-full', args: {} })];
  const left = Math.floor((freeBytes - floorBytes) / frameBytes(frames));
  const args = { frames: roundedDown(left) };
  if (left < framesLeftVeryLow) return [aboutTheHouse('bad', { code: 'page.disk-nearly-full', args })];
  if (left < framesLeftLow) return [aboutTheHouse('doubt', { code: 'page.disk-filling', args })];
  return [];
}

/** The median size of the newest frames. */
function frameBytes(frames: readonly Frame[]): number {
  const sizes = frames
    .slice(-21)
    .map((frame) => frame.files.reduce((total, file) => total + (file.expectedSize ?? file.size), 0))
    .sort((one, other) => one - other);
  return Math.max(1e6, sizes[Math.floor(sizes.length / 2)] ?? usualFrameBytes);
}

/** Two figures are as much as can be known. */
function roundedDown(count: number): number {
  return count < 100 ? count : Math.floor(count / 10) * 10;
}
