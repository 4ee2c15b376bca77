import { join } from 'node:path';
import { errorCode } from '../../../base/index.ts';
import type { Finding } from '../../../facts/index.ts';
import type { AdmittedCamera, LineReport, ReportLine } from '../../core/door-keeper.ts';
import { resolvePath } from '../../core/path.ts';
import { BufferPool } from '../../shell/buffer-pool.ts';
import { nowMs } from '../../shell/clock.ts';
import { FirstLook } from '../core/first-look.ts';
import { defaultFolderLimits, type FolderLimits } from '../core/limits.ts';
import { MissedFiles } from '../core/not-taken.ts';
import { type Sight, sameSight } from '../core/stillness.ts';
import { type WaitingFile, WaitingFiles } from '../core/waiting-files.ts';
import { type Prove, type Taken, takeFile } from './file-taker.ts';
import { lookThrough } from './look-through.ts';
import { type Place, Presence, placeOf } from './presence.ts';
import { sightOf } from './source-file.ts';

export interface WatchedFolderOptions {
  /** Absolute. It need not be there: a card is put in later. */
  readonly folder: string;
  readonly camera: AdmittedCamera;
  /** What a file's structure proves; files that are whole are taken soonest. */
  readonly prove: Prove;
  /** What differs from {@link defaultFolderLimits}. */
  readonly limits?: Partial<FolderLimits>;
}

/** A folder of this computer whose files come in as if a camera sent them. */
export interface WatchedFolder {
  /** Ends what is under way, so, and watches no more. `dismissed`: the camera has been ended. */
  close(why?: 'stopping' | 'dismissed'): Promise<void>;
}

/**
 * Watches a folder with all that is in it: a card, a cable's folder, another program's output. Files are copied and
 * never touched. See SPEC.md, section 12.
 */
export function watchFolder(options: WatchedFolderOptions, report: ReportLine): WatchedFolder {
  const watching = new Watching(options, report);
  watching.begin();
  return { close: (why) => watching.close(why) };
}

class Watching {
  readonly #options: WatchedFolderOptions;
  readonly #limits: FolderLimits;
  readonly #report: ReportLine;
  readonly #pool: BufferPool;
  readonly #waiting: WaitingFiles;
  readonly #busy = new Map<string, { readonly isFollowed: boolean; readonly over: Promise<void> }>();
  /** Set while the folder is there: aborted when it goes. */
  #presence: Presence | null = null;
  /** Of this stay, or the last time it was looked through. */
  #firstLook: FirstLook;
  #timers: NodeJS.Timeout[] = [];
  #looking = false;
  #closed: 'stopping' | 'dismissed' | null = null;
  #saidAway = false;
  #pausedUntilMs = 0;
  /** More files were found than may wait. */
  #hasMissed = false;
  /** What can never be taken: of this stay, or the last. */
  #missed = new MissedFiles();
  #isLookingForMissed = false;
  /** When to look for what was missed, besides now and then. */
  #missedLookAtMs = Number.POSITIVE_INFINITY;

  constructor(options: WatchedFolderOptions, report: ReportLine) {
    this.#options = options;
    this.#limits = Object.freeze({ ...defaultFolderLimits, ...options.limits });
    this.#report = report;
    const { bufferBytes, buffersPerFile, copiesAtOnceMax } = this.#limits;
    this.#pool = new BufferPool(bufferBytes, buffersPerFile * copiesAtOnceMax);
    this.#waiting = new WaitingFiles(this.#limits.waitingMax);
    this.#firstLook = new FirstLook(this.#limits, nowMs());
  }

  begin(): void {
    const { lookMs, rootLookMs, missedLookMs } = this.#limits;
    this.#timers = [
      setInterval(() => void this.#lookAtRoot(), rootLookMs),
      setInterval(() => this.#takeSome(), lookMs),
      setInterval(() => void this.#lookForMissed(), missedLookMs),
    ];
    void this.#lookAtRoot();
  }

  async close(why: 'stopping' | 'dismissed' = 'stopping'): Promise<void> {
    this.#closed ??= why;
    if (this.#presence === null && why === 'dismissed') this.#tell('note', this.#farewell(why));
    for (const timer of this.#timers) clearInterval(timer);
    await this.#leave();
    await Promise.all([...this.#busy.values()].map(({ over }) => over));
  }

  /** A card that is pulled out takes its folder along, or leaves an empty one in its place: another device or file. */
  async #lookAtRoot(): Promise<void> {
    if (this.#looking || this.#closed !== null) return;
    this.#looking = true;
    if (nowMs() >= this.#missedLookAtMs) void this.#lookForMissed();
    try {
      const place = await placeOf(this.#options.folder);
      if (this.#presence !== null && this.#presence.place.identity !== place?.identity) await this.#leave();
      if (place === null) this.#sayAway();
      else if (this.#presence === null && this.#closed === null) this.#arrive(place);
    } finally {
      this.#looking = false;
    }
  }

  #arrive(place: Place): void {
    this.#saidAway = false;
    const presence = new Presence(place, this.#limits.pathDepthMax, {
      looking: () => {
        this.#firstLook = new FirstLook(this.#limits, nowMs());
      },
      looked: () => this.#firstLook.listed(nowMs()),
      seen: (path, isFresh) => {
        const look = this.#firstLook;
        look.seeing();
        void this.#see(path, isFresh).finally(() => look.seen(nowMs()));
      },
      gone: (path) => this.#waiting.forget(path),
      unsure: () => {
        this.#missedLookAtMs = nowMs() + this.#limits.rootLookMs;
      },
      trouble: (trouble) =>
        this.#tell('note', { code: 'line.watch-trouble', args: { why: errorCode(trouble) } }),
    });
    this.#presence = presence;
    this.#missed = new MissedFiles();
    this.#tell('logged-in', { code: 'line.watch-begun', args: { folder: this.#options.folder } });
    void this.#lookForMissed();
  }

  async #lookForMissed(): Promise<void> {
    const presence = this.#presence;
    if (presence === null || this.#isLookingForMissed) return;
    this.#isLookingForMissed = true;
    this.#missedLookAtMs = Number.POSITIVE_INFINITY;
    const { files, notTaken } = await lookThrough(presence.place.path, this.#limits, presence.signal);
    this.#isLookingForMissed = false;
    // What is not there any more may have been taken with the card: the last that was told stands.
    if (presence !== this.#presence) return;
    presence.tellMissed(files);
    for (const finding of this.#missed.tell(notTaken, this.#options.folder)) this.#tell('note', finding);
  }

  async #leave(): Promise<void> {
    const presence = this.#presence;
    if (presence === null) return;
    this.#presence = null;
    this.#waiting.clear();
    await presence.close(this.#closed ?? 'away');
    this.#saidAway = true;
    this.#tell('disconnected', this.#farewell(this.#closed));
  }

  #farewell(closed: 'stopping' | 'dismissed' | null): Finding {
    const { folder, camera } = this.#options;
    if (closed === 'dismissed')
      return { code: 'line.watch-dismissed', args: { folder, camera: camera.name } };
    return { code: closed === null ? 'line.watch-away' : 'line.watch-ended', args: { folder } };
  }

  #sayAway(): void {
    if (this.#saidAway) return;
    this.#saidAway = true;
    this.#tell('note', { code: 'line.watch-away', args: { folder: this.#options.folder } });
  }

  async #see(path: string, isFresh: boolean): Promise<void> {
    const presence = this.#presence;
    if (presence === null || this.#busy.has(path)) return;
    const sight = await sightOf(join(this.#options.folder, path)).catch(() => null);
    if (sight === null || (await this.#isKnown(path, sight))) return;
    if (presence !== this.#presence || this.#busy.has(path)) return;
    if (!this.#waiting.see(path, sight, nowMs(), isFresh)) this.#hasMissed = true;
    if (isFresh) this.#takeSome();
  }

  /** A file that was taken before shows the same size and time in the camera's folder, also after a restart. */
  async #isKnown(path: string, sight: Sight): Promise<boolean> {
    const where = resolvePath('/', path, this.#limits);
    if (where.kind === 'refused') return false;
    const there = await this.#options.camera.folder.stat(where.path).catch(() => null);
    return there?.kind === 'file' && sameSight(sight, there);
  }

  #takeSome(): void {
    const { copiesAtOnceMax, growingAtOnceMax, quietMs } = this.#limits;
    if (this.#presence === null || nowMs() < this.#pausedUntilMs) return;
    if (this.#hasMissed && this.#waiting.size === 0 && this.#busy.size === 0) {
      this.#hasMissed = false;
      this.#presence.scanAgain();
    }
    const count = (isFollowed: boolean): number =>
      [...this.#busy.values()].filter((busy) => busy.isFollowed === isFollowed).length;
    while (count(false) < copiesAtOnceMax && this.#firstLook.isOver(nowMs())) {
      const file = this.#waiting.nextStill(quietMs, nowMs());
      if (file === null) break;
      this.#begin(file, false);
    }
    while (count(true) < growingAtOnceMax) {
      const file = this.#waiting.nextFresh(nowMs());
      if (file === null) break;
      this.#begin(file, true);
    }
  }

  #begin(file: WaitingFile, isFollowed: boolean): void {
    const presence = this.#presence;
    if (presence === null) return;
    const { folder: root, camera, prove } = this.#options;
    const setting = {
      root,
      folder: camera.folder,
      limits: this.#limits,
      pool: this.#pool,
      prove,
      signal: presence.signal,
      report: (finding: Finding) => this.#tell('note', finding),
    };
    const over = takeFile(setting, file)
      .catch(() => 'unreadable' as const)
      .then((taken) => {
        this.#busy.delete(file.path);
        if (presence !== this.#presence) return;
        this.#after(file, taken);
        this.#takeSome();
      });
    this.#busy.set(file.path, { isFollowed, over });
  }

  #after(file: WaitingFile, taken: Taken): void {
    const { retryMs, quietMs } = this.#limits;
    switch (taken) {
      case 'done':
        void this.#seeIfChanged(file);
        break;
      case 'gone':
        void this.#see(file.path, true);
        break;
      case 'never':
        void this.#lookForMissed();
        break;
      case 'changed':
        // Each try leaves what had come: a file that changes for ever is tried ever more rarely.
        this.#waiting.putBack(file, nowMs() + Math.min(retryMs, quietMs * 2 ** file.tries), file.tries + 1);
        break;
      case 'no-room':
        this.#pausedUntilMs = nowMs() + retryMs;
        this.#waiting.putBack(file, 0, file.tries);
        break;
      case 'unreadable':
        this.#waiting.putBack(file, nowMs() + retryMs, file.tries);
        break;
    }
  }

  /** What changed in its last moment was not heard while it was busy. */
  async #seeIfChanged({ path, stillness }: WaitingFile): Promise<void> {
    const sight = await sightOf(join(this.#options.folder, path)).catch(() => null);
    if (sight !== null && !stillness.look(sight, nowMs())) await this.#see(path, true);
  }

  #tell(change: LineReport['change'], finding: Finding): void {
    const { camera, folder } = this.#options;
    this.#report({ camera: camera.name, address: folder, connection: 0, change, finding });
  }
}
