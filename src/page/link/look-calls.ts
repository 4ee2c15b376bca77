import {
  type Look as KeptLook,
  type LookUse,
  lookList,
  lookWithVersions,
  look as shape,
} from '../../contract/index.ts';
import type { Look } from '../../look/index.ts';
import { answerOf, ask, callMsMax, jsonCall, parsed, Refused, sendBody } from './station-call.ts';

/** A raw of a hundred megapixels is decoded and developed meanwhile. */
const developMsMax = 60_000;

/** Names this page among others: on each side of the edge its newest try takes the place of its earlier one. */
const pageName = `look-${Math.random().toString(36).slice(2)}`;

/** The light of a frame before any look, OpenEXR. */
export async function fetchScene(
  frame: string,
  widthPx: number,
  version: number,
  signal: AbortSignal,
): Promise<ArrayBuffer> {
  return bytesOf(`/api/v1/frames/${encodeURIComponent(frame)}/scene?width=${widthPx}&v=${version}`, signal);
}

/** A tile of the same at full size. */
export async function fetchSceneTile(
  frame: string,
  column: number,
  row: number,
  version: number,
  signal: AbortSignal,
): Promise<ArrayBuffer> {
  const address = `/api/v1/frames/${encodeURIComponent(frame)}/scene`;
  return bytesOf(`${address}?tile=${column},${row}&v=${version}`, signal);
}

async function bytesOf(address: string, signal: AbortSignal): Promise<ArrayBuffer> {
  const answer = await fetch(address, {
    signal: AbortSignal.any([signal, AbortSignal.timeout(developMsMax)]),
  });
  if (!answer.ok) throw new Refused('not-taken', `${address}: ${answer.status}`);
  return answer.arrayBuffer();
}

/** The station's own rendering of a frame under a look that is not saved. */
export async function tryLook(
  frame: string,
  widthPx: number,
  look: Look,
  side: 'now' | 'before',
  signal: AbortSignal,
): Promise<Blob> {
  const page = `${pageName}-${side}`;
  const address = `/api/v1/frames/${encodeURIComponent(frame)}/try?width=${widthPx}&page=${page}`;
  const answer = await fetch(address, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(look),
    signal: AbortSignal.any([signal, AbortSignal.timeout(developMsMax)]),
  });
  if (!answer.ok) throw new Refused('not-taken', `${address}: ${answer.status}`);
  return answer.blob();
}

/** The looks that are kept: of each name the newest version. */
export async function fetchLooks(): Promise<KeptLook[]> {
  return parsed(lookList, await ask('/api/v1/looks', AbortSignal.timeout(callMsMax))).looks;
}

/** Every version of every look, by name, the newest first; those that are laid aside too. */
export async function fetchEveryLook(signal: AbortSignal): Promise<KeptLook[]> {
  const either = AbortSignal.any([signal, AbortSignal.timeout(callMsMax)]);
  return parsed(lookList, await ask('/api/v1/looks?all=1', either)).looks;
}

/** Every version of the look that this id is one of, the newest first. */
export async function fetchLookVersions(id: string): Promise<KeptLook[]> {
  const address = `/api/v1/looks/${encodeURIComponent(id)}`;
  return parsed(lookWithVersions, await ask(address, AbortSignal.timeout(callMsMax))).versions;
}

/** Saves as a new version of its title, unless it is one already. Rejects with the station's own words. */
export async function saveLook(
  document: Look,
): Promise<{ readonly saved: KeptLook; readonly isNew: boolean }> {
  const signal = AbortSignal.timeout(callMsMax);
  const answer = await answerOf('/api/v1/looks', signal, jsonCall('POST', document));
  return { saved: parsed(shape, await answer.json()), isNew: answer.status === 201 };
}

/** Makes a version the look of shots, a job or frames: one act. Rejects with the station's own words. */
export async function useLook(id: string, use: LookUse): Promise<void> {
  await sendBody('POST', `/api/v1/looks/${encodeURIComponent(id)}/use`, use);
}

/** The rendering under a kept look, at about this width. */
export function lookPictureAddress(frame: string, widthPx: number, hash: string): string {
  return `/api/v1/frames/${encodeURIComponent(frame)}/picture?width=${widthPx}&look=${hash}`;
}
