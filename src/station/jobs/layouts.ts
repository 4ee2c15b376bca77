import { createHash } from 'node:crypto';
import { SetsideError } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import { type JobChoice, layoutSender, listedShots, planShotChange } from '../../job/index.ts';
import type { Keep } from '../../keep/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { LayoutCalls, PatchBy, PictureAnswer, PictureQuery } from '../../serve/index.ts';
import type { CheckPictureAnswer, SightPool } from '../../workers/index.ts';
import type { FrameBook } from '../frame-book.ts';
import { pathOfFile } from '../frame-files.ts';
import { pictureOfRow } from '../picture-of-row.ts';
import { renderSourceAs } from '../render-source.ts';
import { plainly } from '../rendered-by.ts';
import type { Renderings } from '../renderings.ts';
import type { InTurn } from '../turn.ts';
import type { JobBook } from './job-book.ts';

export interface LayoutDeskOptions {
  readonly homePath: string;
  readonly keep: Pick<Keep, 'folderOf' | 'keptFile'>;
  readonly jobs: JobBook;
  readonly book: FrameBook;
  readonly sight: Pick<SightPool, 'checkPicture'>;
  readonly renderings: Renderings;
  readonly inTurn: InTurn;
  /** A frame's picture as everybody gets it. */
  readonly picture: (frame: string, query: PictureQuery) => Promise<PictureAnswer | null>;
  /** Makes choices about a shot and gives the job after them; null where the job lists no such shot. */
  readonly aboutShot: (
    code: string,
    shot: string,
    by: PatchBy,
    choose: () => Promise<readonly JobChoice[]>,
  ) => Promise<contract.Job | null>;
}

/**
 * Layout pictures: what a client or an art director drew. Each is kept as what a camera sends is kept - under its
 * hash, in the job's folder, copied, never overwritten - as a frame that stands in no list.
 */
export function createLayoutDesk(options: LayoutDeskOptions): LayoutCalls {
  return {
    putLayout: (code, shot, bytes, by) => putLayout(options, code, shot, bytes, by),
    layout: (code, shot, query) => layout(options, code, shot, query),
  };
}

async function putLayout(
  options: LayoutDeskOptions,
  code: string,
  shot: string,
  bytes: Uint8Array,
  by: PatchBy,
): Promise<contract.Job | null> {
  if (!listsShot(options, code, shot)) return null;
  // Looked at before anything of it is kept, and outside the turn: a large one takes its second.
  const checked = await options.sight.checkPicture({ bytes });
  return options.aboutShot(code, shot, by, async () => {
    const frame = await keptFrame(options, code, shot, bytes, checked);
    return planShotChange(options.jobs.jobs(), code, shot, { layout: frame });
  });
}

function listsShot({ jobs }: LayoutDeskOptions, code: string, shot: string): boolean {
  const job = jobs.job(code);
  return job !== null && listedShots(job).some(({ id }) => id === shot);
}

const extensions = { jpeg: 'JPG', png: 'PNG', webp: 'WEBP', tiff: 'TIF' } as const;

/** The frame that holds these bytes: one that was kept before, or a new one. Rejects `disk-full` and the like. */
async function keptFrame(
  { keep, book }: LayoutDeskOptions,
  code: string,
  shot: string,
  bytes: Uint8Array,
  { kind }: CheckPictureAnswer,
): Promise<string> {
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const known = await book.frameOfOriginal(code, layoutSender, sha256);
  if (known !== null) return known;
  // The hash in the name keeps two layouts of one shot from being taken for the files of one frame.
  const path = `/${shot.replaceAll(/[^A-Za-z0-9_-]/g, '_').slice(0, 60)}-${sha256.slice(0, 12)}.${extensions[kind]}`;
  const how = { via: 'folder', at: 'start', announcedBytes: bytes.length, job: code } as const;
  const arrival = await keep.folderOf(layoutSender).open(path, how);
  await arrival.write(bytes);
  const outcome = await arrival.finish('closed');
  const kept = keep.keptFile(arrival.id);
  if (outcome.kind === 'failed') throw new SetsideError(outcome.code, 'the layout could not be written');
  if (outcome.kind !== 'kept' || kept === null)
    throw new SetsideError('picture-cannot-decode', `the structure of ${path} is not whole`);
  return kept.frame;
}

async function layout(
  options: LayoutDeskOptions,
  code: string,
  shot: string,
  query: PictureQuery,
): Promise<PictureAnswer | null> {
  const job = options.jobs.job(code);
  const found = job === null ? undefined : listedShots(job).find(({ id }) => id === shot);
  if (found === undefined) return null;
  if (found.layout === null)
    return { kind: 'none', finding: { code: 'picture.no-layout', args: { name: found.name } } };
  const row = await options.book.row(found.layout);
  if (row === null)
    return { kind: 'none', finding: { code: 'picture.no-layout', args: { name: found.name } } };
  if (row.camera === layoutSender) await makeVisible(options, row);
  return options.picture(found.layout, query);
}

/** A layout is rendered when somebody first asks for it: it stands in no queue. */
async function makeVisible({ book, renderings, homePath }: LayoutDeskOptions, row: FrameRow): Promise<void> {
  const file = row.files.find(({ path, sha256 }) => path !== null && sha256 !== null);
  if (file === undefined || pictureOfRow(row).state === 'rendered') return;
  const source = renderSourceAs(file, pathOfFile(homePath, file), 'raster', plainly);
  if (source === null) return;
  const { widthPx: width, heightPx: height } = await renderings.makeBase(source);
  const picture = {
    state: 'rendered',
    width,
    height,
    source: source.kind,
    look: source.lookHash,
    target: null,
    original: null,
    version: 1,
  };
  await book.note(row.id, { picture });
}
