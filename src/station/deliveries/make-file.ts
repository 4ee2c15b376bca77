import { mkdir, open, rename, rm, stat, statfs } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { SetsideError } from '../../base/index.ts';
import {
  findingsOfWords,
  hasWords,
  holdsIim,
  type ManifestLine,
  planSurround,
  type SizePlan,
  type Specification,
  type Surround,
  wordsRoomFindings,
} from '../../deliver/index.ts';
import type { Finding } from '../../facts/index.ts';
import { type MetadataWriter, type PictureWords, tagsOfWords, type WriteWish } from '../../metadata/index.ts';
import type { DevelopPool, FinishAnswer, FinishJob, RenderJob } from '../../workers/index.ts';
import type { Renderings, RenderSource } from '../renderings.ts';

export interface FileMakers {
  readonly renderings: Pick<Renderings, 'fullSize' | 'picture'>;
  readonly pool: Pick<DevelopPool, 'render' | 'surround' | 'finish' | 'prove'>;
  readonly writer: MetadataWriter;
}

export interface FileWish {
  /** Name of the file. */
  readonly file: string;
  readonly specification: Specification;
  /** What is written into it. */
  readonly words: PictureWords;
  /** Where the file goes, absolute. */
  readonly folder: string;
  /** Where what comes between lies, absolute, on the same disk; taken away with all that is in it. */
  readonly making: string;
}

/** Bytes: a disk with less beside a file is full, whatever the failure was called. */
const roomMin = 1_000_000;

type Made = Pick<ManifestLine, 'sha256' | 'bytes' | 'widthPx' | 'heightPx' | 'findings'>;

/** One file of a delivery, from the original that `source` names. It has its name when it is whole, and was read again. */
export async function makeFile(
  { renderings, pool, writer }: FileMakers,
  { file, folder, making, specification, words }: FileWish,
  source: RenderSource,
  signal: AbortSignal,
): Promise<Made> {
  const { size, enlarge, background, copySpace, space, profileVersion, sharpening, format, pixelsPerInch } =
    specification;
  const full = await renderings.fullSize(source);
  const picture = { widthPx: full.width, heightPx: full.height };
  const mayExtend = background.kind === 'white' && background.extend;
  const isPlaced = size.kind === 'exact' && (size.fillPercent !== null || mayExtend);
  const isAsked = isPlaced || copySpace !== null;
  const surround = isAsked ? await surroundOf({ renderings, pool }, source, signal) : unlooked;
  const plan = planSurround(picture, surround, { size, enlarge, mayExtend });
  const room = wordsRoomFindings(picture, surround.subject, plan, copySpace);
  // Whatever was begun before in it is of no use: a thread that is ended may leave something behind.
  await takeAway(making);
  await mkdir(making);
  try {
    const between = join(making, 'rendered.tif');
    const { path, kind, look, balance } = source;
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
    const finish: FinishJob = {
      path: between,
      ...placed(plan, picture),
      sharpening,
      format,
      pixelsPerInch,
      border: background.kind === 'white' ? background : null,
      outPath: join(making, file),
    };
    const finished = await finishAndLabel(
      { pool, writer },
      finish,
      wishOf(specification, words, path),
      signal,
    );
    signal.throwIfAborted();
    await moveDurably(finish.outPath, folder, file);
    const { sha256, bytes, widthPx, heightPx, findings } = finished;
    return { sha256, bytes, widthPx, heightPx, findings: [...plan.findings, ...room, ...findings] };
  } finally {
    await takeAway(making);
  }
}

/** A power cut leaves the name with all its bytes, or none: the log says of it that it is made. */
async function moveDurably(from: string, folder: string, name: string): Promise<void> {
  await synced(from);
  await rename(from, join(folder, name));
  await synced(folder);
}

async function synced(path: string): Promise<void> {
  const handle = await open(path, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** With all that is in it; a thread that is being ended may put something there once more. */
export async function takeAway(making: string): Promise<void> {
  await rm(making, { recursive: true, force: true, maxRetries: 5, retryDelay: 50 });
}

/** Nobody asks what stands in a picture that is taken as it is. */
const unlooked: Surround = {
  subject: null,
  plain: { left: false, top: false, right: false, bottom: false },
};

/** Of the picture as its look places it. */
async function surroundOf(
  { renderings, pool }: Pick<FileMakers, 'renderings' | 'pool'>,
  source: RenderSource,
  signal: AbortSignal,
): Promise<Surround> {
  const { path } = await renderings.picture(source, null, 'jpeg');
  return pool.surround({ path }, signal);
}

/** What is written, and what has to be said of it; null where nothing is. */
function wishOf(
  { metadata, format, space }: Specification,
  words: PictureWords,
  path: string,
): { readonly write: WriteWish; readonly findings: readonly Finding[] } | null {
  const asked = new Set(metadata.privateFields);
  if (!hasWords(words) && asked.size === 0) return null;
  const { tags } = tagsOfWords(words, holdsIim(format));
  const takenOver = {
    path,
    settings: asked.has('capture-settings'),
    serialNumbers: asked.has('serial-numbers'),
    position: asked.has('position'),
    words: asked.has('words-of-original'),
  };
  return {
    write: {
      tags,
      holdsIim: holdsIim(format),
      isSrgb: space === 'srgb',
      isJpeg: format.kind === 'jpeg',
      takenOver,
    },
    findings: findingsOfWords(words, format),
  };
}

/** ExifTool writes the whole file anew beside it, and does not say by a code that the disk is full. */
async function rethrown(thrown: unknown, path: string): Promise<never> {
  const [{ bavail, bsize }, { size }] = await Promise.all([statfs(dirname(path)), stat(path)]);
  if (bavail * bsize < size + roomMin)
    throw new SetsideError('ENOSPC', `no room for ${path}`, { cause: thrown });
  throw thrown;
}

/** Metadata comes on top of the bytes that the picture may have: then the picture is made once more, smaller by that. */
async function finishAndLabel(
  { pool, writer }: Pick<FileMakers, 'pool' | 'writer'>,
  finish: FinishJob,
  wish: ReturnType<typeof wishOf>,
  signal: AbortSignal,
): Promise<FinishAnswer> {
  let job = finish;
  for (;;) {
    const finished = await pool.finish(job, signal);
    if (wish === null) return finished;
    const differing = await writer
      .write(job.outPath, wish.write, { signal })
      .catch((thrown: unknown) => rethrown(thrown, job.outPath));
    if (differing.length > 0) {
      const names = differing.slice(0, 10).join(', ');
      throw new SetsideError('delivery-not-as-written', `metadata of ${job.outPath} differs: ${names}`);
    }
    const { pixelsSha256, profileSha256 } = finished;
    const proved = await pool.prove({ path: job.outPath, pixelsSha256, profileSha256 }, signal);
    const bytesMax = finish.format.kind === 'jpeg' ? finish.format.bytesMax : null;
    if (bytesMax === null || proved.bytes <= bytesMax)
      return { ...finished, ...proved, findings: [...finished.findings, ...wish.findings] };
    const label = proved.bytes - finished.bytes;
    if (job !== finish || finish.format.kind !== 'jpeg' || label >= bytesMax)
      throw new SetsideError('delivery-too-large', `${finish.outPath} has ${proved.bytes} bytes`);
    job = { ...finish, format: { ...finish.format, bytesMax: bytesMax - label } };
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
