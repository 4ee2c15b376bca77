import {
  type ActEntry,
  type ActList,
  act,
  actList,
  type FramePatch,
  type ImportReport,
  importReport,
  type Job,
  type JobPatch,
  job,
  jobList,
  type NewAcceptance,
  type NewJob,
  type NewScale,
  type NewShot,
  type ShotPatch,
} from '../../contract/index.ts';
import type { Question } from '../../facts/index.ts';
import { newName } from './screen.ts';
import { ask, jsonCall, parsed, sendBody } from './station-call.ts';

/** A list of 8 MB over a weak line; everything else answers in milliseconds. */
const importMsMax = 60_000;

/** A layout of 128 MB over a weak line. */
const layoutMsMax = 120_000;

/** Every job, the newest opened first. */
export async function fetchJobs(signal: AbortSignal): Promise<readonly Job[]> {
  return parsed(jobList, await ask('/api/v1/jobs', signal)).jobs;
}

/** One job. Rejects where there is none of this code. */
export async function fetchJob(code: string, signal: AbortSignal): Promise<Job> {
  return parsed(job, await ask(jobAddress(code), signal));
}

/** What can be taken back, and who did what else; the newest first. */
export async function fetchActs(signal: AbortSignal): Promise<ActList> {
  return parsed(actList, await ask('/api/v1/undo', signal));
}

/** Takes the newest act back, or the one named. */
export async function undoAct(id?: string): Promise<ActEntry> {
  return parsed(act, await takeBackCall('/api/v1/undo', id === undefined ? {} : { act: id }));
}

/** An act on twenty thousand frames is taken back as one, which takes the station its time. */
const takeBackMsMax = 90_000;

function takeBackCall(address: string, body: object | null): Promise<unknown> {
  return ask(address, AbortSignal.timeout(takeBackMsMax), jsonCall('POST', body));
}

/** Does again what was taken back last, as long as nothing else was done. */
export async function putBackAct(): Promise<ActEntry> {
  return parsed(act, await takeBackCall('/api/v1/undo/back', null));
}

export async function makeJob(wish: NewJob): Promise<Job> {
  return parsed(job, await sendBody('POST', '/api/v1/jobs', wish));
}

/** `version`: the one that was seen; where the job has another by now, it rejects `version-changed`. */
export async function patchJob(code: string, patch: JobPatch, version?: number): Promise<Job> {
  return parsed(job, await sendBody('PATCH', jobAddress(code), patch, version));
}

export async function addShot(code: string, shot: NewShot): Promise<Job> {
  return parsed(job, await sendBody('POST', `${jobAddress(code)}/shots`, shot));
}

export async function patchShot(
  code: string,
  shot: string,
  patch: ShotPatch,
  version?: number,
): Promise<Job> {
  return parsed(job, await sendBody('PATCH', shotAddress(code, shot), patch, version));
}

/** One with frames is hidden, and its frames stay with it. */
export async function removeShot(code: string, shot: string, version: number): Promise<Job> {
  return parsed(job, await sendBody('DELETE', shotAddress(code, shot), null, version));
}

/** One that was taken from the list while it had frames is listed again. */
export async function bringShotBack(code: string, shot: string, version: number): Promise<Job> {
  return parsed(job, await sendBody('POST', `${shotAddress(code, shot)}/back`, null, version));
}

export async function orderShots(code: string, shots: readonly string[], version: number): Promise<Job> {
  return parsed(job, await sendBody('PUT', `${jobAddress(code)}/order`, { shots }, version));
}

/** Frames of one call: the station answers within a second, and the page can say how far it is. */
const movedMax = 250;

/** Moves frames to a job; all of them are one act that can be taken back. `tell` hears how many are done. */
export async function takeFramesIn(
  code: string,
  frames: readonly string[],
  shot: string | null,
  tell: (done: number) => void = () => {},
): Promise<void> {
  const act = newName();
  for (let from = 0; from < frames.length; from += movedMax) {
    const some = frames.slice(from, from + movedMax);
    await sendBody('POST', `${jobAddress(code)}/frames`, { frames: some, shot, act });
    tell(from + some.length);
  }
}

/** From this frame's moment on, frames of the shot are held against it. */
export async function setBaseline(code: string, shot: string, frame: string): Promise<void> {
  await sendBody('POST', `${shotAddress(code, shot)}/baseline`, { frame });
}

/** A preview changes nothing. JSON by the ending of the name, everything else is a table. */
export async function importShots(
  code: string,
  file: File,
  preview: boolean,
  version?: number,
): Promise<ImportReport> {
  const address = `${jobAddress(code)}/shots/import${preview ? '?preview=1' : ''}`;
  const isJson = /\.json$/i.test(file.name);
  const answer = await ask(address, AbortSignal.timeout(importMsMax), {
    method: 'POST',
    headers: {
      'content-type': isJson ? 'application/json' : 'text/csv',
      ...(version === undefined ? {} : { 'if-match': `"${version}"` }),
    },
    body: file,
  });
  return parsed(importReport, answer);
}

export function exportAddress(code: string, format: 'csv' | 'json'): string {
  return `${jobAddress(code)}/shots/export?format=${format}`;
}

/** Gives a shot its layout picture; the change comes as an event. Rejects with {@link Refused}. */
export async function putLayout(code: string, shot: string, picture: Blob): Promise<void> {
  await ask(`${shotAddress(code, shot)}/layout`, AbortSignal.timeout(layoutMsMax), {
    method: 'PUT',
    headers: { 'content-type': picture.type === '' ? 'application/octet-stream' : picture.type },
    body: picture,
  });
}

/** The layout picture of a shot; 404 where it has none. */
export function layoutAddress(code: string, shot: string, width: number): string {
  return `${shotAddress(code, shot)}/layout?width=${width}`;
}

/** Moves a frame or says what it was taken for; the change comes as an event. */
export async function patchFrame(frame: string, patch: FramePatch): Promise<void> {
  await sendBody('PATCH', `/api/v1/frames/${encodeURIComponent(frame)}`, patch);
}

/** Takes a verdict upon oneself; null takes that back. */
export async function acceptVerdict(
  frame: string,
  question: Question,
  acceptance: NewAcceptance | null,
): Promise<void> {
  const address = `/api/v1/frames/${encodeURIComponent(frame)}/acceptances/${question}`;
  await sendBody(acceptance === null ? 'DELETE' : 'PUT', address, acceptance);
}

/** Frames of the shot are held against it no more. */
export async function removeBaseline(code: string, shot: string, frame: string): Promise<void> {
  await sendBody('DELETE', `${shotAddress(code, shot)}/baseline/${encodeURIComponent(frame)}`, null);
}

/** From this frame's moment on the target in it counts for its camera. */
export async function countTarget(code: string, frame: string): Promise<void> {
  await sendBody('POST', `${jobAddress(code)}/targets`, { frame });
}

/** The target in it counts no longer. */
export async function targetGone(code: string, frame: string): Promise<void> {
  await sendBody('DELETE', `${jobAddress(code)}/targets/${encodeURIComponent(frame)}`, null);
}

/** How large things are in the pictures of the shot. */
export async function setScale(code: string, shot: string, scale: NewScale): Promise<void> {
  await sendBody('PUT', `${shotAddress(code, shot)}/scale`, scale);
}

/** Nobody says it any more. */
export async function scaleGone(code: string, shot: string): Promise<void> {
  await sendBody('DELETE', `${shotAddress(code, shot)}/scale`, null);
}

function jobAddress(code: string): string {
  return `/api/v1/jobs/${encodeURIComponent(code)}`;
}

function shotAddress(code: string, shot: string): string {
  return `${jobAddress(code)}/shots/${encodeURIComponent(shot)}`;
}
