import { lstat, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { listFolder } from '../../bagging/index.ts';
import type { Finding } from '../../facts/index.ts';
import { type DeliveryTold, readDeliveryLog } from '../deliveries/delivery-log.ts';

export interface DeliveriesToPack {
  /** Paths below the job's folder of deliveries, and bytes. */
  readonly files: readonly { readonly path: string; readonly bytes: number }[];
  /** Deliveries that are not in it, and what is to be done about it. */
  readonly leftOut: readonly Finding[];
}

/**
 * The files of the deliveries that came to their end. Half a delivery has no manifest: who opens the bag in ten years would take it
 * for all that was delivered. `folder`: the job's folder of deliveries, written into meanwhile by a station or not.
 */
export async function deliveriesToPack(folder: string): Promise<DeliveriesToPack> {
  if ((await lstat(folder).catch(() => null))?.isDirectory() !== true) return { files: [], leftOut: [] };
  // What a log says before its files are listed is true of the list: a delivery that is done changes no more.
  const found = new Map<string, Finding | null>();
  for (const name of await readdir(folder))
    if (logName.test(name)) found.set(stemOf(name), leftOutOf(await readDeliveryLog(join(folder, name))));
  const listed = [...(await listFolder(folder)).files];
  for (const [path] of listed)
    if (logName.test(path) && !found.has(stemOf(path)))
      // Begun since.
      found.set(stemOf(path), leftOutOf(await readDeliveryLog(join(folder, path))) ?? underWay(stemOf(path)));
  const files = listed.flatMap(([path, { bytes }]) => {
    const [delivery = ''] = path.split('/');
    return isOwnBook(path) || (found.get(delivery) ?? null) !== null ? [] : [{ path, bytes }];
  });
  return { files, leftOut: [...found.values()].filter((each) => each !== null) };
}

/** Null where it was done, once at least: it may be sending again what is made. One of which nothing can be told lies as it lies. */
function leftOutOf(told: DeliveryTold | null): Finding | null {
  if (told === null) return null;
  const states = told.entries.flatMap((entry) => ('state' in entry ? [entry.state] : []));
  if (states.includes('done')) return null;
  const { title } = told.order.specification;
  switch (states.at(-1) ?? 'running') {
    case 'aborted':
      return { code: 'bag.delivery-ended-early', args: { title } };
    case 'paused':
      return { code: 'bag.delivery-waits', args: { title } };
    default:
      return underWay(title);
  }
}

function underWay(title: string): Finding {
  return { code: 'bag.delivery-under-way', args: { title } };
}

const logName = /^[^/]+\.jsonl$/;

function stemOf(name: string): string {
  return name.replace(/\.jsonl$/, '');
}

/**
 * How far a delivery is, and what lies between an original and its file: of use to a station that goes on with it, and to nobody who
 * opens the bag. What was asked for stands in the manifest.
 */
function isOwnBook(path: string): boolean {
  return logName.test(path) || /^\.[^/]+\.making\//.test(path);
}
