import type { ContentKind, Inspection } from '../formats/index.ts';
import type { ReadingWishes } from '../judge/index.ts';
import type { DevelopPool } from './develop-pool.ts';
import { workerError } from './errors.ts';
import { inspectOnDisk } from './inspect-on-disk.ts';
import type { JudgeAnswer } from './judge-messages.ts';

export interface JudgedFile extends JudgeAnswer {
  readonly path: string;
  readonly kind: 'raw' | 'raster';
  readonly inspection: Inspection;
}

/** Kinds there is a decoder for other than the raw one. */
const rasterKinds: readonly ContentKind[] = ['jpeg', 'png', 'webp', 'tiff'];

/**
 * Reads the pixels of one file without a station. `wishesFor`: what is wanted, once it is known what the file says of
 * itself. Errors: `not-a-picture`, `file-empty`, and those of `DevelopPool`.
 */
export async function judgeFile(
  path: string,
  pool: Pick<DevelopPool, 'judge'>,
  wishesFor: (inspection: Inspection) => ReadingWishes,
  signal?: AbortSignal,
): Promise<JudgedFile> {
  const inspection = await inspectOnDisk(path);
  if (inspection.kind === 'empty') throw workerError('file-empty', { path });
  if (inspection.kind === 'text') throw workerError('not-a-picture', { path });
  const kind = rasterKinds.includes(inspection.kind) ? 'raster' : 'raw';
  return {
    ...(await pool.judge({ path, kind, wishes: wishesFor(inspection) }, signal)),
    path,
    kind,
    inspection,
  };
}
