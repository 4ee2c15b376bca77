import { setTimeout as sleep } from 'node:timers/promises';
import { errorCode } from '../../../base/index.ts';
import type { Finding } from '../../../facts/index.ts';
import type { Arrival, ArrivalEnd, ArrivalOutcome, CameraFolder } from '../../core/camera-folder.ts';
import { outcomeFinding } from '../../core/outcome-findings.ts';
import { nameOf, parentOf, resolvePath } from '../../core/path.ts';
import type { BufferPool } from '../../shell/buffer-pool.ts';
import { nowMs } from '../../shell/clock.ts';
import type { FolderLimits } from '../core/limits.ts';
import { type Proof, type Sight, sameSight, stillnessNeededMs } from '../core/stillness.ts';
import type { WaitingFile } from '../core/waiting-files.ts';
import { ByteCopy } from './copy-bytes.ts';
import { SourceFile } from './source-file.ts';

/** Says what a file's own structure proves; asked for files of others, which may change or go at any moment. */
export type Prove = (path: string, sizeBytes: number) => Promise<Proof>;

export interface TakerSetting {
  /** The watched folder, absolute. */
  readonly root: string;
  readonly folder: CameraFolder;
  readonly limits: FolderLimits;
  readonly pool: BufferPool;
  readonly prove: Prove;
  report(finding: Finding): void;
  /** Aborted when the folder is `away`, the station `stopping` or the camera `dismissed`; the reason says which. */
  readonly signal: AbortSignal;
}

/**
 * What came of a file. `done`: kept. `changed`: it did so under our hands. `unreadable`: perhaps later. `no-room`: no
 * file can be taken now. `gone`: nothing is there to take. `never`: it has no name that can be kept, or lies elsewhere;
 * the watched folder tells of those together.
 */
export type Taken = 'done' | 'changed' | 'unreadable' | 'no-room' | 'gone' | 'never';

/** Takes one file in as if a camera sent it: copied, never touched. */
export async function takeFile(setting: TakerSetting, file: WaitingFile): Promise<Taken> {
  const { root, limits, signal } = setting;
  const where = resolvePath('/', file.path, limits);
  const name = nameOf(file.path);
  if (where.kind === 'refused') return 'never';
  let source: SourceFile | null = null;
  try {
    source = await SourceFile.open(root, file.path);
    return await new Taking(setting, file, source, where.path).run();
  } catch (trouble) {
    return signal.aborted ? 'gone' : whatOf(setting, name, trouble);
  } finally {
    await source?.close();
  }
}

/** Tells the camera's log, and what that means for the file. */
function whatOf({ report }: TakerSetting, name: string, trouble: unknown): Taken {
  const why = errorCode(trouble);
  switch (why) {
    case 'ENOENT':
      // Its writer renamed or removed it between two looks: no trouble.
      return 'gone';
    case 'disk-full':
    case 'disk-failed':
      report({ code: `line.${why}`, args: { name } });
      return 'no-room';
    case 'too-many':
    case 'busy':
      return 'no-room';
    case 'ELOOP':
      return 'never';
    default:
      report({ code: 'line.watch-unreadable', args: { name, why } });
      return 'unreadable';
  }
}

class Taking {
  readonly #setting: TakerSetting;
  readonly #file: WaitingFile;
  readonly #source: SourceFile;
  readonly #path: string;
  readonly #name: string;
  #proved: { readonly sight: Sight; readonly proof: Promise<Proof> } | null = null;

  constructor(setting: TakerSetting, file: WaitingFile, source: SourceFile, path: string) {
    this.#setting = setting;
    this.#file = file;
    this.#source = source;
    this.#path = path;
    this.#name = nameOf(path);
  }

  async run(): Promise<Taken> {
    const sight = await this.#source.sight();
    if (sight === null) return 'gone';
    const { folder, report } = this.#setting;
    await this.#makeFolders(parentOf(this.#path));
    const arrival = await folder.open(this.#path, { via: 'folder', at: 'start', announcedBytes: null });
    report({ code: 'line.upload-started', args: { name: this.#name, offsetBytes: 0 } });
    return this.#finish(arrival, await this.#copy(arrival, sight));
  }

  async #makeFolders(path: string): Promise<void> {
    const { folder } = this.#setting;
    if (path === '/' || (await folder.stat(path)) !== null) return;
    await this.#makeFolders(parentOf(path));
    await folder.makeFolder(path).catch((trouble: unknown) => {
      if (errorCode(trouble) !== 'exists') throw trouble;
    });
  }

  /** Copies until the file lies still; says how it ended, and as what it was seen last. */
  async #copy(arrival: Arrival, first: Sight): Promise<{ readonly end: ArrivalEnd; readonly sight: Sight }> {
    const { limits, pool, signal } = this.#setting;
    const isFollowed = this.#file.stillness.stillMs(nowMs()) < limits.quietMs;
    const copy = new ByteCopy(this.#source, arrival, pool, limits.buffersPerFile, isFollowed);
    let sight = first;
    try {
      for (;;) {
        await copy.copyTo(sight.sizeBytes, signal);
        const next = await this.#source.sight();
        if (next === null || next.sizeBytes < copy.copiedBytes) return { end: 'aborted', sight };
        const isStill = this.#file.stillness.look(next, nowMs()) && sameSight(sight, next);
        // Not followed, so nothing remembers what the bytes were before they changed.
        if (!isStill && !isFollowed) return { end: 'aborted', sight };
        sight = next;
        if (isStill && (await this.#isAll(sight))) {
          return { end: (await copy.isUnchanged()) ? 'closed' : 'aborted', sight };
        }
        if (isStill) await sleep(limits.lookMs, undefined, { signal });
      }
    } catch (trouble) {
      return { end: this.#endFor(trouble), sight };
    } finally {
      await copy.end();
    }
  }

  #endFor(trouble: unknown): ArrivalEnd {
    const { signal } = this.#setting;
    if (signal.aborted) {
      return signal.reason === 'away' ? 'reset' : signal.reason === 'dismissed' ? 'dismissed' : 'stopping';
    }
    // What the home's disk refused is told with the end, which knows how much is there.
    if (['disk-full', 'disk-failed'].includes(errorCode(trouble))) return 'failed';
    const what = whatOf(this.#setting, this.#name, trouble);
    return what === 'no-room' ? 'failed' : 'reset';
  }

  /** Whether a file that lies still has done so for long enough, by what its structure proves. */
  async #isAll(sight: Sight): Promise<boolean> {
    const { limits } = this.#setting;
    const still = this.#file.stillness.stillMs(nowMs());
    if (still < limits.quietMs) return false;
    if (still >= limits.cutPatienceMs) return true;
    const proof = await this.#prove(sight);
    return still >= stillnessNeededMs(proof, limits);
  }

  /** Asked once for each sight of the file. */
  #prove(sight: Sight): Promise<Proof> {
    if (this.#proved === null || !sameSight(this.#proved.sight, sight)) {
      const asked = this.#setting.prove(this.#source.path, sight.sizeBytes);
      this.#proved = { sight, proof: asked.catch(() => 'unknown') };
    }
    return this.#proved.proof;
  }

  async #finish(
    arrival: Arrival,
    { end, sight }: { readonly end: ArrivalEnd; readonly sight: Sight },
  ): Promise<Taken> {
    const outcome = await arrival.finish(end);
    if (end === 'closed' && outcome.kind === 'broken-off') return this.#keepCut(outcome);
    this.#tell(outcome, end);
    if (outcome.kind === 'failed') return 'no-room';
    if (end === 'reset') return 'unreadable';
    // Perhaps kept all the same: the bytes are an original then, and what the file is now is another.
    if (end !== 'closed') return 'changed';
    await this.#setting.folder.setModified(this.#path, sight.modifiedMs).catch(() => {});
    return 'done';
  }

  /**
   * Cut, and it has lain still for long: what the folder holds is all there is. Said a second time, it is kept as
   * damaged (a resume that brings nothing and ends in order). Only the end of it is told: `brokenOff` is on the way.
   */
  async #keepCut(brokenOff: ArrivalOutcome): Promise<Taken> {
    const { folder } = this.#setting;
    const sight = await this.#source.sight();
    if (sight === null || !sameSight(sight, this.#file.stillness.sight)) {
      this.#tell(brokenOff, 'aborted');
      return 'changed';
    }
    const arrival = await folder.open(this.#path, { via: 'folder', at: 'end', announcedBytes: null });
    const outcome = await arrival.finish('closed');
    this.#tell(outcome, 'closed');
    if (outcome.kind !== 'kept-damaged' && outcome.kind !== 'kept') return 'no-room';
    await folder.setModified(this.#path, sight.modifiedMs).catch(() => {});
    return 'done';
  }

  #tell(outcome: ArrivalOutcome, why: ArrivalEnd): void {
    const { report } = this.#setting;
    const { code, args } = outcomeFinding(this.#path, why, outcome);
    report({ code, args: { ...args, via: 'folder' } });
  }
}
