import { resolve } from 'node:path';
import { SetsideError } from '../base/index.ts';
import { type CameraFolder, type Proof, type ReportLine, watchFolder } from '../receive/index.ts';
import { inspectFile } from './arrival-watch.ts';
import type { CameraRoster } from './cameras/camera-roster.ts';
import type { Closers } from './closers.ts';
import type { WatchWish } from './core/options.ts';
import { overlap } from './own-folders.ts';

/**
 * Watches the folders that were wished for. Throws `bad-option` where a camera is not there, or a folder is, holds or lies
 * in one of the station's own (`own`: home and second places): its keys and journal would come in as a camera's files.
 */
export function openWatches(
  watches: readonly WatchWish[],
  roster: Pick<CameraRoster, 'find'>,
  own: readonly string[],
  folderOf: (camera: string) => CameraFolder,
  report: ReportLine,
  closers: Closers,
): void {
  for (const { camera: name, folder } of watches) {
    if (roster.find(name) === null) throw noSuchCamera(name);
    const ours = own.find((place) => overlap(folder, place));
    if (ours !== undefined) throw ownFolder(folder, ours);
    const camera = { name, folder: folderOf(name) };
    const watched = watchFolder({ folder: resolve(folder), camera, prove }, report);
    closers.add(() => watched.close());
  }
}

function ownFolder(folder: string, place: string): SetsideError {
  return new SetsideError('bad-option', `--watch: ${folder} and the station's own ${place} overlap`, {
    details: { option: 'watch' },
    cure: 'Watch a folder outside the home and the second places.',
  });
}

async function prove(path: string, sizeBytes: number): Promise<Proof> {
  return (await inspectFile(path, sizeBytes)).wholeness.kind;
}

function noSuchCamera(name: string): SetsideError {
  return new SetsideError('bad-option', `--watch: there is no camera "${name}"`, {
    details: { option: 'watch' },
    cure: `Add it with setside camera add ${name}.`,
  });
}
