import { resolve } from 'node:path';
import { SetsideError } from '../base/index.ts';
import {
  type CameraFolder,
  type Proof,
  type ReportLine,
  type WatchedFolder,
  type WatchedFolderOptions,
  watchFolder,
} from '../receive/index.ts';
import { inspectFile } from './arrival-watch.ts';
import type { CameraRoster } from './cameras/camera-roster.ts';
import type { Camera } from './cameras/core/camera.ts';
import { thoseThere } from './cameras/roster-changes.ts';
import type { Closers } from './closers.ts';
import { homeOption } from './core/home-option.ts';
import type { StationOptions, WatchWish } from './core/options.ts';
import { overlap } from './own-folders.ts';

/**
 * Refuses watches that are none: of a camera that is not there, or of a folder that is, holds or lies in one of the
 * station's own, home and second places: its keys and journal would come in as a camera's files. Throws `bad-option`.
 */
export function checkWatches(
  { home, copies, watches }: Pick<StationOptions, 'home' | 'copies' | 'watches'>,
  roster: Pick<CameraRoster, 'find' | 'all'>,
): void {
  for (const { camera, folder } of watches) {
    if (roster.find(camera) === null) throw noSuchCamera(camera, roster.all(), home);
    const ours = [home, ...copies].find((place) => overlap(folder, place));
    if (ours !== undefined) throw ownFolder(folder, ours);
  }
}

/** Watches the folders that were wished for and found right, each while its camera is not ended. */
export function openWatches(
  watches: readonly WatchWish[],
  roster: Pick<CameraRoster, 'find' | 'onChange'>,
  folderOf: (camera: string) => CameraFolder,
  report: ReportLine,
  closers: Closers,
): void {
  for (const { camera: name, folder } of watches) {
    const camera = { name, folder: folderOf(name) };
    const watch = new Watch({ folder: resolve(folder), camera, prove }, report);
    const follow = (): void => watch.follow(roster.find(name)?.ended !== true);
    follow();
    roster.onChange(follow);
    closers.add(() => watch.close());
  }
}

/** One wish: a folder that is watched while its camera may come in. */
class Watch {
  readonly #options: WatchedFolderOptions;
  readonly #report: ReportLine;
  #watched: WatchedFolder | null = null;
  #mayCome: boolean | null = null;
  /** What is under way ends before the folder is watched anew. */
  #turn: Promise<void> = Promise.resolve();

  constructor(options: WatchedFolderOptions, report: ReportLine) {
    this.#options = options;
    this.#report = report;
  }

  follow(mayCome: boolean): void {
    if (mayCome === this.#mayCome) return;
    const isFirst = this.#mayCome === null;
    this.#mayCome = mayCome;
    if (isFirst && !mayCome) this.#sayDismissed();
    this.#turn = this.#turn.then(() => this.#turnTo(mayCome));
  }

  close(): Promise<void> {
    this.#turn = this.#turn.then(() => this.#watched?.close());
    return this.#turn;
  }

  async #turnTo(mayCome: boolean): Promise<void> {
    if (mayCome) {
      this.#watched ??= watchFolder(this.#options, this.#report);
      return;
    }
    await this.#watched?.close('dismissed');
    this.#watched = null;
  }

  #sayDismissed(): void {
    const { folder, camera } = this.#options;
    const finding = { code: 'line.watch-dismissed', args: { folder, camera: camera.name } };
    this.#report({ camera: camera.name, address: folder, connection: 0, change: 'note', finding });
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

function noSuchCamera(name: string, cameras: readonly Camera[], home: string): SetsideError {
  return new SetsideError('bad-option', `--watch: there is no camera "${name}"`, {
    details: { option: 'watch' },
    cure: `${thoseThere(cameras)} Add it: setside camera add ${name} ${homeOption(home)}`,
  });
}
