import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { errorCode } from '../../base/index.ts';
import type { ManifestGap, ManifestLine } from '../../deliver/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { FileRow } from '../../register/index.ts';
import type { FrameBook } from '../frame-book.ts';
import { pathOfFile } from '../frame-files.ts';
import { pictureOfRow } from '../picture-of-row.ts';
import { fileToShow, renderSourceAs } from '../render-source.ts';
import { type FileMakers, type FileWish, makeFile } from './make-file.ts';

export interface FrameMakers extends FileMakers {
  readonly book: Pick<FrameBook, 'row' | 'limits'>;
  readonly homePath: string;
}

export interface FrameWish extends FileWish {
  readonly frame: string;
}

/** Codes of the system that stop a whole delivery: the next file would fare no better. */
export const cannotWriteCodes: ReadonlySet<string> = new Set([
  'ENOSPC',
  'EDQUOT',
  'EROFS',
  'ENOTDIR',
  'EEXIST',
  'EACCES',
  'EPERM',
  'EIO',
]);

/**
 * One file of a delivery, or why there is none. Rejects where nothing can be written, and with the signal's reason. The original
 * is hashed before: what differs from what was kept is not delivered, a good copy of it is.
 */
export async function deliverFrame(
  makers: FrameMakers,
  wish: FrameWish,
  signal: AbortSignal,
): Promise<{ readonly made: ManifestLine } | { readonly gap: ManifestGap }> {
  const row = await makers.book.row(wish.frame);
  const file = row === null ? null : fileToShow(row);
  const gap = (finding: Finding): { readonly gap: ManifestGap } => ({
    gap: { frame: wish.frame, original: file?.name ?? row?.name ?? '', finding },
  });
  if (row === null || file === null || file.sha256 === null)
    return gap({ code: 'deliver.no-original', args: {} });
  const shown = pictureOfRow(row);
  if (shown.state !== 'rendered') {
    return gap(
      shown.state === 'cannot' ? shown.reason : { code: 'deliver.not-rendered', args: { name: row.name } },
    );
  }
  const found = await goodBytes(pathOfFile(makers.homePath, file), file);
  if (found.path === null) return gap(found.harm);
  const { path, said } = found;
  const { look, balance } = makers.book.limits(row);
  const source = renderSourceAs(file, path, shown.source, { look, balance });
  if (source === null) return gap({ code: 'deliver.no-original', args: {} });
  try {
    const done = await makeFile(makers, wish, source, signal);
    const named = source.look === null ? '' : look.name;
    const rest = { frame: row.id, shot: row.shot ?? '', original: file.name, originalSha256: file.sha256 };
    const findings = [...said, ...done.findings];
    return {
      made: { file: wish.file, ...done, ...rest, look: named, lookSha256: source.lookHash, findings },
    };
  } catch (thrown) {
    const code = errorCode(thrown);
    if (signal.aborted || cannotWriteCodes.has(code) || code === 'worker-pool-closed') throw thrown;
    if (code === 'ENOENT' && !(await isThere(wish.folder))) throw thrown;
    const limit = wish.specification.format.kind === 'jpeg' ? (wish.specification.format.bytesMax ?? 0) : 0;
    return gap(
      code === 'delivery-too-large'
        ? { code: 'deliver.too-many-bytes', args: { name: wish.file, bytesMax: limit } }
        : { code: 'deliver.failed', args: { name: file.name, why: code } },
    );
  }
}

type Found =
  | { readonly path: string; readonly said: readonly Finding[] }
  | { readonly path: null; readonly harm: Finding };

/**
 * Where the bytes lie that were kept: in the home, or, where those are damaged or gone, in a second place, and that is said. What is
 * wrong with the original is told of a copy too that is no better.
 */
async function goodBytes(path: string, file: FileRow): Promise<Found> {
  const harm = await harmOf(path, file);
  if (harm === null) return { path, said: [] };
  const { name } = file;
  for (const { folder } of file.copies) {
    if (file.path === null) break;
    const copy = join(folder, file.path);
    if ((await harmOf(copy, file)) === null) {
      const what = harm.code === 'deliver.damaged-original' ? 'damaged' : 'missing';
      return { path: copy, said: [{ code: 'deliver.from-copy', args: { name, folder, what } }] };
    }
  }
  return { path: null, harm };
}

/** What is wrong with the bytes at `path`; null where they are those that were kept. */
async function harmOf(path: string, { name, sha256, copies }: FileRow): Promise<Finding | null> {
  const folder = copies.find(({ otherDevice }) => otherDevice)?.folder ?? copies[0]?.folder ?? '';
  try {
    const hash = createHash('sha256');
    for await (const part of createReadStream(path)) hash.update(part as Buffer);
    return hash.digest('hex') === sha256
      ? null
      : { code: 'deliver.damaged-original', args: { name, folder } };
  } catch (thrown) {
    if (errorCode(thrown) !== 'ENOENT')
      return { code: 'deliver.unreadable-original', args: { name, why: errorCode(thrown) } };
    return { code: 'deliver.missing-original', args: { name, folder } };
  }
}

async function isThere(folder: string): Promise<boolean> {
  return (await stat(folder).catch(() => null))?.isDirectory() === true;
}
