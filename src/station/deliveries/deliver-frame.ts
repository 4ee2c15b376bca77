import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { errorCode } from '../../base/index.ts';
import {
  type ManifestGap,
  type ManifestLine,
  planSize,
  type SizePlan,
  type Specification,
} from '../../deliver/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { FileRow } from '../../register/index.ts';
import type { DevelopPool, FinishJob, RenderJob } from '../../workers/index.ts';
import { fileToShow, renderSourceAs } from '../developing.ts';
import type { FrameBook } from '../frame-book.ts';
import { pathOfFile } from '../frame-files.ts';
import { pictureOfRow } from '../picture-of-row.ts';
import type { Renderings, RenderSource } from '../renderings.ts';

export interface FrameMakers {
  readonly book: Pick<FrameBook, 'row' | 'limits'>;
  readonly renderings: Pick<Renderings, 'fullSize'>;
  readonly pool: Pick<DevelopPool, 'render' | 'finish'>;
  readonly homePath: string;
}

export interface FrameWish {
  readonly frame: string;
  readonly file: string;
  readonly specification: Specification;
  /** Where the file goes, absolute. */
  readonly folder: string;
}

/** Codes of the system that stop a whole delivery: the next file would fare no better. */
export const cannotWriteCodes: ReadonlySet<string> = new Set([
  'ENOSPC',
  'EDQUOT',
  'EROFS',
  'EACCES',
  'EPERM',
  'EIO',
]);

/**
 * One file of a delivery, or why there is none. Rejects where nothing can be written, and with the signal's reason. The original
 * is hashed before: what differs from what was kept is not delivered.
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
  const path = pathOfFile(makers.homePath, file);
  const harm = await harmOf(path, file);
  if (harm !== null) return gap(harm);
  const { look, balance } = makers.book.limits(row);
  const source = renderSourceAs(file, path, shown.source, { look, balance });
  if (source === null) return gap({ code: 'deliver.no-original', args: {} });
  try {
    const done = await make(makers, wish, source, signal);
    const named = source.look === null ? '' : look.name;
    const rest = { frame: row.id, shot: row.shot ?? '', original: file.name, originalSha256: file.sha256 };
    return { made: { file: wish.file, ...done, ...rest, look: named, lookSha256: source.lookHash } };
  } catch (thrown) {
    const code = errorCode(thrown);
    if (signal.aborted || cannotWriteCodes.has(code) || code === 'worker-pool-closed') throw thrown;
    const limit = wish.specification.format.kind === 'jpeg' ? (wish.specification.format.bytesMax ?? 0) : 0;
    return gap(
      code === 'delivery-too-large'
        ? { code: 'deliver.too-many-bytes', args: { name: wish.file, bytesMax: limit } }
        : { code: 'deliver.failed', args: { name: file.name, why: code } },
    );
  }
}

/** What is wrong with an original, with the copy that holds it where there is one. */
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

type Made = Pick<ManifestLine, 'sha256' | 'bytes' | 'widthPx' | 'heightPx' | 'findings'>;

async function make(
  { renderings, pool }: FrameMakers,
  { file, folder, specification }: FrameWish,
  source: RenderSource,
  signal: AbortSignal,
): Promise<Made> {
  const { size, enlarge, background, space, profileVersion, sharpening, format } = specification;
  const full = await renderings.fullSize(source);
  const picture = { widthPx: full.width, heightPx: full.height };
  const mayExtend = background.kind === 'white' && background.extend;
  const plan = planSize(picture, null, { size, enlarge, mayExtend });
  const between = join(folder, `.${file}.rendered.tif`);
  const { path, kind, look, balance } = source;
  try {
    const render: RenderJob = {
      path,
      kind,
      look,
      balance,
      size: sizeOf(plan, picture),
      format: 'tiff',
      output: { space, depth: 16, profileVersion },
      outPath: between,
    };
    await pool.render(render, signal);
    const finished = await pool.finish(
      {
        path: between,
        ...placed(plan, picture),
        sharpening,
        format,
        borderLeast: background.kind === 'white' ? background.leastCode : null,
        outPath: join(folder, file),
      },
      signal,
    );
    const { sha256, bytes, widthPx, heightPx, findings } = finished;
    return { sha256, bytes, widthPx, heightPx, findings: [...plan.findings, ...findings] };
  } finally {
    await rm(between, { force: true });
  }
}

type Picture = { readonly widthPx: number; readonly heightPx: number };

/** What of the window lies in the picture, resampled in linear light as far as it gets smaller. */
function sizeOf(plan: SizePlan, picture: Picture): RenderJob['size'] {
  const scale = plan.target.widthPx / plan.window.widthPx;
  const inside = insideOf(plan, picture);
  const isWhole = inside.widthPx === picture.widthPx && inside.heightPx === picture.heightPx;
  if (isWhole && !plan.isExtended) {
    return scale >= 1 ? 'full' : { longEdgePx: Math.max(plan.target.widthPx, plan.target.heightPx) };
  }
  return { region: inside, scale: Math.min(1, scale) };
}

/** Where that comes to lie in the file. */
function placed(plan: SizePlan, picture: Picture): Pick<FinishJob, 'target' | 'around'> {
  if (!plan.isExtended) return { target: plan.target, around: null };
  const { window, target } = plan;
  const inside = insideOf(plan, picture);
  const scale = target.widthPx / window.widthPx;
  const leftPx = Math.round((inside.leftPx - window.leftPx) * scale);
  const topPx = Math.round((inside.topPx - window.topPx) * scale);
  const widthPx = Math.max(1, Math.min(target.widthPx - leftPx, Math.round(inside.widthPx * scale)));
  const heightPx = Math.max(1, Math.min(target.heightPx - topPx, Math.round(inside.heightPx * scale)));
  return { target: { widthPx, heightPx }, around: { frame: target, leftPx, topPx } };
}

function insideOf({ window }: SizePlan, picture: Picture): SizePlan['window'] {
  const leftPx = Math.max(0, window.leftPx);
  const topPx = Math.max(0, window.topPx);
  return {
    leftPx,
    topPx,
    widthPx: Math.min(picture.widthPx, window.leftPx + window.widthPx) - leftPx,
    heightPx: Math.min(picture.heightPx, window.topPx + window.heightPx) - topPx,
  };
}
