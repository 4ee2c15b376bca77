import { randomBytes } from 'node:crypto';
import { mkdir, readdir, rm, stat } from 'node:fs/promises';
import { basename, dirname, extname, join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import type { RgbSpaceName } from '../colour/index.ts';
import type { TargetBalance } from '../develop/index.ts';
import type { ContentKind } from '../formats/index.ts';
import type { Look } from '../look/index.ts';
import type { DevelopPool } from './develop-pool.ts';
import { outputExists, workerError } from './errors.ts';
import { inspectOnDisk } from './inspect-on-disk.ts';
import type { JobBoard } from './job-board.ts';
import type { OutputWish } from './output-way.ts';
import { putInPlace } from './put-in-place.ts';
import type { LensWish, OutputFormat, RenderAnswer, RenderJob } from './render-messages.ts';

export interface DevelopFileOptions {
  readonly pool: DevelopPool;
  /** Folder for the result; made where it is missing. */
  readonly outDir: string;
  readonly size: RenderJob['size'];
  /** `tiff-linear`: 16 bits, linear, no look, at half size unless `size` is `full`; `look` is not used. */
  readonly format: OutputFormat | 'tiff-linear';
  /** Space and depth; has to be there for `tiff` and `avif`. Left out: sRGB of 8 bits, as a screen shows it. */
  readonly output?: OutputWish;
  readonly look: Look | null;
  /** What raws are developed by in place of their own balance and their camera's matrix; not used for `tiff-linear`. */
  readonly balance?: TargetBalance | null;
  /** What is done about the lens of raws; not used for `tiff-linear`. Default `file`. */
  readonly lens?: LensWish;
  /** Colour space of `tiff-linear`. Default `rec2020`, which holds what a camera sees. */
  readonly space?: RgbSpaceName;
  /** Whether a result may take the place of what lies under its name. Default false. */
  readonly replace?: boolean;
  readonly signal?: AbortSignal;
  /** Where it is told how far it is; not for `tiff-linear`. */
  readonly board?: JobBoard;
}

export interface DevelopedFile extends RenderAnswer {
  readonly path: string;
  readonly outPath: string;
  readonly kind: 'raw' | 'raster';
}

/**
 * Develops one file without a station: the result lies in `outDir` under the original's name with the format's
 * extension. What the file is, its content decides. Nothing is replaced unless `replace` says so.
 * Errors: `output-is-original`, `output-exists`, `not-a-picture`, `picture-not-raw`, `file-empty`, and those of
 * `DevelopPool`.
 */
export async function developFile(path: string, options: DevelopFileOptions): Promise<DevelopedFile> {
  const { format, replace = false } = options;
  const kind = await kindOfFile(path, format);
  const outPath = join(options.outDir, resultName(path, format));
  await mkdir(options.outDir, { recursive: true });
  if (await isSameFile(path, outPath)) throw workerError('output-is-original', { path });
  // Asked now, so that nobody waits for a rendering that has no place; whether it has one is decided at the end.
  if (!replace && (await stat(outPath).catch(() => null)) !== null) throw outputExists(outPath);
  const freshPath = `${outPath}.${randomBytes(6).toString('hex')}.new`;
  try {
    const answer = await developTo(freshPath, path, kind, options);
    await putInPlace(freshPath, outPath, replace);
    return { ...answer, path, outPath, kind };
  } catch (thrown) {
    await removeBegun(freshPath);
    if (options.signal?.aborted === true) {
      // A thread that is being ended may write for a moment more.
      await setTimeout(lastWriteMs);
      await removeBegun(freshPath);
    }
    throw thrown;
  }
}

const lastWriteMs = 200;

/** A worker that was ended in the middle leaves what it had begun to write, under names that begin with `freshPath`. */
async function removeBegun(freshPath: string): Promise<void> {
  const folder = dirname(freshPath);
  const names = await readdir(folder).catch(() => []);
  for (const name of names) {
    if (name.startsWith(basename(freshPath))) await rm(join(folder, name), { force: true });
  }
}

async function developTo(
  outPath: string,
  path: string,
  kind: DevelopedFile['kind'],
  {
    pool,
    format,
    size,
    look,
    output,
    lens = 'file',
    balance = null,
    space = 'rec2020',
    signal,
    board,
  }: DevelopFileOptions,
): Promise<RenderAnswer> {
  if (format === 'tiff-linear') {
    return pool.linear({ path, space, size: size === 'full' ? 'full' : 'half', outPath }, signal);
  }
  // Of a look, a camera's JPEG takes geometry alone; asking for more would be answered with a remark each time.
  const chosen = { ...(output === undefined ? {} : { output }), ...(board === undefined ? {} : { board }) };
  const own = kind === 'raw' ? { look, balance, lens } : { look: await ofRaster(look) };
  return pool.render({ path, kind, size, format, outPath, ...own, ...chosen }, signal);
}

async function ofRaster(look: Look | null): Promise<Look | null> {
  if (look === null) return null;
  const { hasGeometry } = await import('./has-geometry.ts');
  return hasGeometry(look) ? look : null;
}

/** Name of the file that {@link developFile} writes for an original. */
export function resultName(path: string, format: DevelopFileOptions['format']): string {
  return basename(path, extname(path)) + extensions[format];
}

const extensions: Readonly<Record<OutputFormat | 'tiff-linear', string>> = {
  jpeg: '.jpg',
  webp: '.webp',
  png: '.png',
  tiff: '.tif',
  avif: '.avif',
  'tiff-linear': '.tif',
};

/** Kinds there is a decoder for other than the raw one. */
const rasterKinds: readonly ContentKind[] = ['jpeg', 'png', 'webp', 'tiff'];

/** What no decoder has to be asked about is said at once. Raw data of a kind we do not know may be known to the decoder. */
async function kindOfFile(
  path: string,
  format: DevelopFileOptions['format'],
): Promise<DevelopedFile['kind']> {
  const { kind } = await inspectOnDisk(path);
  if (kind === 'empty') throw workerError('file-empty', { path });
  if (kind === 'text') throw workerError('not-a-picture', { path });
  if (!rasterKinds.includes(kind)) return 'raw';
  if (format !== 'tiff-linear') return 'raster';
  // Of what is built like TIFF, the decoder may know raw data that `formats` does not.
  if (kind === 'tiff') return 'raw';
  throw workerError('picture-not-raw', { path });
}

/** Whether both names lead to one file, through links and on file systems that do not tell case apart too. */
async function isSameFile(path: string, outPath: string): Promise<boolean> {
  const [original, result] = await Promise.all([stat(path), stat(outPath).catch(() => null)]);
  return result !== null && original.dev === result.dev && original.ino === result.ino;
}
