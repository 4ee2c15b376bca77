import { stat } from 'node:fs/promises';
import type { FrameRow } from '../register/index.ts';
import { pathOfFile, previewOnDisk } from './frame-files.ts';
import type { LookedAt } from './frame-flow.ts';
import { pictureOfRow } from './picture-of-row.ts';
import { fileToShow, renderSource } from './render-source.ts';
import type { RenderedBy } from './rendered-by.ts';
import type { Renderings } from './renderings.ts';

/** The finished picture that a frame is shown by: its base rendering, or the preview inside a file that cannot be developed. */
export async function shownPicture(
  row: FrameRow,
  homePath: string,
  renderings: Renderings,
  by: RenderedBy,
): Promise<LookedAt | null> {
  const picture = pictureOfRow(row);
  if (picture.state === 'cannot') {
    const preview = await previewOnDisk(row, homePath);
    return preview === null ? null : { bytes: preview.jpeg };
  }
  const file = fileToShow(row);
  if (picture.state !== 'rendered' || file === null) return null;
  const path = pathOfFile(homePath, file);
  const source = renderSource(file, path, picture.source === 'raw' ? 'dng' : 'jpeg', by);
  if (source === null) return null;
  const { path: base } = await renderings.picture(source, null, 'jpeg');
  return (await stat(base)).size > 0 ? { path: base } : null;
}
