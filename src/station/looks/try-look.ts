import { SetsideError } from '../../base/index.ts';
import { lookHash } from '../../look/index.ts';
import type { TryAnswer, TryWish } from '../../serve/index.ts';
import type { FrameBook } from '../frame-book.ts';
import { pathOfFile } from '../frame-files.ts';
import { pictureOfRow } from '../picture-of-row.ts';
import { fileToShow, renderSourceAs } from '../render-source.ts';
import { longEdgeFor } from '../renderings.ts';
import { shapeUnder } from './shape-under.ts';
import type { Tries } from './tries.ts';

export interface TryOptions {
  readonly book: FrameBook;
  readonly tries: Tries;
  readonly homePath: string;
}

/** A frame as it would be with this look, balanced as it is now. Rejects as `LookCalls.tryLook` says. */
export function tryLook(
  { book, tries, homePath }: TryOptions,
  id: string,
  { document, width, page }: TryWish,
  signal: AbortSignal,
): Promise<TryAnswer | null> {
  return tries.of(page, signal, async (either) => {
    const row = await book.row(id);
    if (row === null) return null;
    const shown = pictureOfRow(row);
    if (shown.state === 'cannot') return { kind: 'none', finding: shown.reason };
    const file = fileToShow(row);
    if (shown.state !== 'rendered' || file === null)
      return { kind: 'none', finding: { code: 'picture.not-yet', args: { name: row.name } } };
    if (shown.source !== 'raw') throw new SetsideError('no-look', `frame ${id} takes no look`);
    const hash = lookHash(document);
    const { balance } = book.limits(row);
    const by = { balance, look: { document, hash } };
    const source = renderSourceAs(file, pathOfFile(homePath, file), 'raw', by);
    if (source === null) return null;
    const edge = width === undefined ? null : longEdgeFor(width, shapeUnder(document, shown), 'raw');
    return { kind: 'picture', jpeg: await tries.render(source, edge, either), hash };
  });
}
