import { SetsideError } from '../base/index.ts';
import type { FirstView, Original, PictureAnswer, PictureQuery } from '../serve/index.ts';
import { inspectFile } from './arrival-watch.ts';
import type { FirstViews } from './first-views.ts';
import type { FrameBook } from './frame-book.ts';
import { pathOfFile, previewOnDisk } from './frame-files.ts';
import type { LookBook } from './looks/look-book.ts';
import { renderedWith } from './looks/rendered-with.ts';
import { pictureOfRow } from './picture-of-row.ts';
import { fileToShow, renderSource } from './render-source.ts';
import { longEdgeFor, type Renderings } from './renderings.ts';

/** What a frame's pictures and files are answered from. */
export interface PictureDeskOptions {
  readonly homePath: string;
  readonly book: FrameBook;
  readonly looks: LookBook;
  readonly views: FirstViews;
  readonly renderings: Renderings;
}

/** From memory while it is fresh; otherwise cut out of the file again. */
export async function firstView(
  { book, views, homePath }: PictureDeskOptions,
  id: string,
): Promise<FirstView | null> {
  const row = await book.row(id);
  if (row === null) return null;
  const picture = pictureOfRow(row);
  const version = 'version' in picture ? picture.version : 0;
  const preview = views.get(id) ?? (await previewOnDisk(row, homePath));
  if (preview === null) return null;
  views.set(id, preview);
  return { content: { kind: 'bytes', bytes: preview.jpeg }, contentType: 'image/jpeg', version };
}

/** The file that a frame's picture is made of; null where there is none. */
export async function shownFile(
  { book, homePath }: PictureDeskOptions,
  id: string,
): Promise<{ readonly name: string; readonly path: string } | null> {
  const row = await book.row(id);
  const file = row === null ? null : fileToShow(row);
  return file === null ? null : { name: file.name, path: pathOfFile(homePath, file) };
}

export async function picture(
  { book, renderings, looks, homePath }: PictureDeskOptions,
  id: string,
  query: PictureQuery,
): Promise<PictureAnswer | null> {
  const row = await book.row(id);
  if (row === null) return null;
  const shown = pictureOfRow(row);
  if (shown.state === 'cannot') return { kind: 'none', finding: shown.reason };
  const file = fileToShow(row);
  if (shown.state !== 'rendered' || file === null) {
    return { kind: 'none', finding: { code: 'picture.not-yet', args: { name: row.name } } };
  }
  const path = pathOfFile(homePath, file);
  const { kind } = await inspectFile(path, file.sizeBytes);
  const source = renderSource(file, path, kind, renderedWith(looks, book.limits(row), query.look));
  if (source === null)
    return { kind: 'none', finding: { code: 'picture.unknown-kind', args: { name: row.name } } };
  if (query.look !== undefined && query.look !== source.lookHash) {
    throw new SetsideError('no-look', `frame ${id} is not rendered with the look ${query.look}`);
  }
  const shape = query.look === undefined ? shown : await renderings.fullSize(source);
  const edge = query.width === undefined ? null : longEdgeFor(query.width, shape, source.kind);
  const rendering = await renderings.picture(source, edge, query.format);
  return {
    kind: 'picture',
    content: { kind: 'file', path: rendering.path },
    contentType: `image/${rendering.format}`,
    etag: rendering.etag,
  };
}

export async function original(
  { book, homePath }: PictureDeskOptions,
  id: string,
  name: string,
): Promise<Original | null> {
  const row = await book.row(id);
  const file = row?.files.find((entry) => entry.name === name && entry.path !== null);
  if (file === undefined || file.sha256 === null) return null;
  return { path: pathOfFile(homePath, file), sizeBytes: file.sizeBytes, sha256: file.sha256 };
}
