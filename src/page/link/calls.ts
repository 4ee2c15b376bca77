import {
  brokenArrivalList,
  type CameraPatch,
  type DiaryPage,
  diaryPage,
  type Frame,
  type FramePage,
  type FrameReadings,
  type FramesMarked,
  framePage,
  frameReadings,
  framesMarked,
  type LineCheck,
  type LineRehearsal,
  lineCheck,
  lineRehearsal,
  type Station,
  station,
} from '../../contract/index.ts';
import type { Mark } from '../../facts/index.ts';
import { OwnChoices } from './own-choices.ts';
import { newName } from './screen.ts';
import { ask, callMsMax, parsed, sendBody } from './station-call.ts';

/** Frames per page of the listing. */
const pageLimit = 500;
/** The listing is read at most so many pages deep (100,000 frames): a bound on a station that never ends. */
const pagesMax = 200;

export async function fetchStation(signal: AbortSignal): Promise<Station> {
  return parsed(station, await fetchJson('/api/v1/station', signal));
}

/** Frames of a page that the large screens read: a tenth of a second of a slow station, and no pause on the page. */
const newestLimit = 120;

/** A page of the listing against the day, from a cursor on; null for the newest. */
export async function fetchFramePage(after: string | null, signal: AbortSignal): Promise<FramePage> {
  const from = after === null ? '' : `&after=${encodeURIComponent(after)}`;
  return parsed(
    framePage,
    await fetchJson(`/api/v1/frames?order=newest&limit=${newestLimit}${from}`, signal),
  );
}

/** Every frame there is, or of one job, page by page. */
export async function fetchFrames(signal: AbortSignal, job: string | null): Promise<Frame[]> {
  const of = job === null ? '' : `&job=${encodeURIComponent(job)}`;
  const frames: Frame[] = [];
  let after: string | null = null;
  for (let page = 0; page < pagesMax; page += 1) {
    const query: string = after === null ? '' : `&after=${encodeURIComponent(after)}`;
    const answer = parsed(
      framePage,
      await fetchJson(`/api/v1/frames?limit=${pageLimit}${of}${query}`, signal),
    );
    frames.push(...answer.frames);
    if (answer.next === null) break;
    after = answer.next;
  }
  return frames;
}

/** What was read in a frame's pixels. */
export async function fetchReadings(id: string, signal: AbortSignal): Promise<FrameReadings> {
  return parsed(frameReadings, await fetchJson(`${frameAddress(id)}/readings`, signal));
}

/**
 * Marks a frame as it is shown here; the answer comes as an event, like every other change. Rejects `changed-meanwhile` where
 * somebody else has marked it otherwise.
 */
export function patchMark({ id, mark: shown }: Pick<Frame, 'id' | 'mark'>, mark: Mark): Promise<void> {
  return ownMarks.send({ id, shown }, mark, (seen) =>
    sendBody('PATCH', frameAddress(id), { mark, seen: { mark: seen } }),
  );
}

/** Moves a frame to another shot of its job, as {@link patchMark} marks it. */
export function patchFrameShot(
  { id, shot: shown }: Pick<Frame, 'id' | 'shot'>,
  shot: string | null,
): Promise<void> {
  return ownShots.send({ id, shown }, shot, (seen) =>
    sendBody('PATCH', frameAddress(id), { shot, seen: { shot: seen } }),
  );
}

const ownMarks = new OwnChoices<Mark>(() => Date.now());
const ownShots = new OwnChoices<string | null>(() => Date.now());

/** Frames of one call: the station answers within a second, and the page can say how far it is. */
const markedMax = 250;

/**
 * Marks frames alike as they are shown here; all of them are one act that can be taken back. Gives those that somebody else has
 * marked meanwhile, which were left as they are. `tell` hears how many are done. Rejects with the station's own words.
 */
export async function markFrames(
  frames: readonly Pick<Frame, 'id' | 'mark'>[],
  mark: Mark,
  tell: (done: number) => void = () => {},
): Promise<FramesMarked['meanwhile']> {
  const meanwhile: FramesMarked['meanwhile'] = [];
  const act = newName();
  for (let from = 0; from < frames.length; from += markedMax) {
    const some = frames.slice(from, from + markedMax).map(({ id, mark: shown }) => ({ id, shown }));
    await ownMarks.sendMany(some, mark, async (seen) => {
      const body = { frames: some.map(({ id }) => id), mark, seen: Object.fromEntries(seen), act };
      const left = parsed(framesMarked, await sendBody('POST', '/api/v1/marks', body)).meanwhile;
      meanwhile.push(...left);
      return new Set(left.map(({ frame }) => frame));
    });
    tell(from + some.length);
  }
  return meanwhile;
}

/** Says something of a camera; the answer comes as an event. Rejects with the station's own words. */
export async function patchCamera(name: string, patch: CameraPatch): Promise<void> {
  await sendBody('PATCH', `/api/v1/cameras/${encodeURIComponent(name)}`, patch);
}

/** One more camera; it comes as an event. Rejects with the station's own words. */
export async function addCamera(name: string): Promise<void> {
  await sendBody('POST', '/api/v1/cameras', { name });
}

/** A page of the diary, newest first; `before` is the `next` of the page before. */
export async function fetchDiary(before: string | null, signal: AbortSignal): Promise<DiaryPage> {
  const query = before === null ? '' : `?before=${encodeURIComponent(before)}`;
  return parsed(diaryPage, await fetchJson(`/api/v1/diary${query}`, signal));
}

/** The line check, looked at anew. */
export async function fetchLine(signal: AbortSignal): Promise<LineCheck> {
  return parsed(lineCheck, await fetchJson('/api/v1/line', signal));
}

/** As large as a small JPEG of a camera. */
const rehearsalBytes = 2_000_000;
/** On a line of 100 kB a second it takes this long. */
const rehearsalMsMax = 25_000;

/** Sends bytes that the station throws away; noise, since nothing on the way can make it smaller. Rejects with {@link Refused}. */
export async function rehearseLine(): Promise<LineRehearsal> {
  const body = new Uint8Array(rehearsalBytes);
  // As much as is given at once (W3C Web Cryptography API, section 10.1.1).
  for (let at = 0; at < body.length; at += 65_536) crypto.getRandomValues(body.subarray(at, at + 65_536));
  const call = { method: 'POST', headers: { 'content-type': 'application/octet-stream' }, body };
  return parsed(
    lineRehearsal,
    await ask('/api/v1/line/rehearsal', AbortSignal.timeout(rehearsalMsMax), call),
  );
}

/** Gives up what broke off of a frame; the change comes as an event. Rejects where the station refuses. */
export async function letGoOf(frame: string): Promise<void> {
  const waiting = parsed(
    brokenArrivalList,
    await fetchJson('/api/v1/arrivals', AbortSignal.timeout(callMsMax)),
  );
  for (const { id } of waiting.arrivals.filter((arrival) => arrival.frame === frame)) {
    const address = `/api/v1/arrivals/${encodeURIComponent(id)}`;
    const answer = await fetch(address, { method: 'DELETE', signal: AbortSignal.timeout(callMsMax) });
    if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
  }
}

/** The rendering, upright, at about this width; `version` keeps the browser's cache from an older one. */
export function pictureAddress(id: string, width: number, version: number): string {
  return `${frameAddress(id)}/picture?width=${width}&v=${version}`;
}

/** The largest rendering there is of the whole frame at once, upright: half size for a raw. */
export function basePictureAddress(id: string, version: number): string {
  return `${frameAddress(id)}/picture?v=${version}`;
}

/** A part of the upright picture at full size, pixel for pixel. */
export function regionAddress(
  id: string,
  part: {
    readonly leftPx: number;
    readonly topPx: number;
    readonly widthPx: number;
    readonly heightPx: number;
  },
  version: number,
): string {
  const { leftPx, topPx, widthPx, heightPx } = part;
  return `${frameAddress(id)}/region?left=${leftPx}&top=${topPx}&width=${widthPx}&height=${heightPx}&v=${version}`;
}

/** The embedded preview as the camera wrote it, not turned. */
export function firstViewAddress(id: string, version: number): string {
  return `${frameAddress(id)}/first-view?v=${version}`;
}

function frameAddress(id: string): string {
  return `/api/v1/frames/${encodeURIComponent(id)}`;
}

async function fetchJson(address: string, signal: AbortSignal): Promise<unknown> {
  const answer = await fetch(address, {
    signal: AbortSignal.any([signal, AbortSignal.timeout(callMsMax)]),
    headers: { accept: 'application/json' },
  });
  if (!answer.ok) throw new Error(`expected ${address} to answer, got ${answer.status}`);
  return answer.json();
}
