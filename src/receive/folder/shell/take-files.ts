import { readdir } from 'node:fs/promises';
import type { Finding } from '../../../facts/index.ts';
import type { CameraFolder } from '../../core/camera-folder.ts';
import { BufferPool } from '../../shell/buffer-pool.ts';
import { nowMs } from '../../shell/clock.ts';
import { defaultFolderLimits, type FolderLimits } from '../core/limits.ts';
import { Stillness } from '../core/stillness.ts';
import { type Prove, type Taken, takeFile } from './file-taker.ts';
import { sightOf } from './source-file.ts';

export interface FilesToTake {
  /** Absolute. */
  readonly root: string;
  /** Below the root, `/` between names, in the order in which they are taken. */
  readonly paths: readonly string[];
  /** The camera whose files they become. */
  readonly folder: CameraFolder;
  readonly prove: Prove;
  readonly report: (finding: Finding) => void;
  /** Ends it after what is under way; the reason is `stopping`, `away` or `dismissed`. */
  readonly signal: AbortSignal;
  /** Told after each. */
  readonly onFile: (path: string, taken: boolean) => void;
}

/** How it ended: all were tried; somebody stopped it; the folder went away; nothing more can be kept. */
export type FilesTaken = 'done' | 'stopped' | 'away' | 'no-room';

/** A file of a card that is not being written is taken as it lies: nobody adds to it while it is in a reader. */
const limits: FolderLimits = { ...defaultFolderLimits, quietMs: 0, patienceMs: 0, cutPatienceMs: 0 };

/**
 * Takes files in one after another, as a watched folder takes them: copied, never touched, kept before it goes on. What cannot
 * be taken is told (`onFile`) and left.
 */
export async function takeFiles(wish: FilesToTake): Promise<FilesTaken> {
  const { root, paths, folder, prove, report, signal, onFile } = wish;
  const pool = new BufferPool(limits.bufferBytes, limits.buffersPerFile);
  const setting = { root, folder, limits, pool, prove, report, signal };
  for (const path of paths) {
    if (signal.aborted) return 'stopped';
    const taken = await takeOne(path);
    // It may have gone between two looks: once more tells a file that changed from one that keeps changing.
    const again = taken === 'changed' ? await takeOne(path) : taken;
    if (signal.aborted) return 'stopped';
    if (again === 'no-room') return 'no-room';
    if (again !== 'done' && !(await isThere(root))) return 'away';
    onFile(path, again === 'done');
  }
  return 'done';

  async function takeOne(path: string): Promise<Taken> {
    const sight = await sightOf(`${root}/${path}`).catch(() => null);
    if (sight === null) return 'gone';
    const stillness = new Stillness(sight, nowMs());
    return takeFile(setting, { path, stillness, notBeforeMs: 0, tries: 0, isFresh: false });
  }
}

/** A card that was pulled out leaves no folder, or an empty one. */
async function isThere(root: string): Promise<boolean> {
  return (await readdir(root).catch(() => [])).length > 0;
}
