import type { SidecarWords } from '../facts/index.ts';
import type { ContentKind } from '../formats/index.ts';
import type { MetadataReader } from '../metadata/index.ts';
import type { FileRow, FrameRow } from '../register/index.ts';
import { saysNothing } from './side-files.ts';
import { speaksOf } from './speaks-of.ts';

/** What came with a frame beside its picture's own tags. */
export interface CameAlong {
  /** The `xmp:Rating`, of its sidecar before that inside its file; null where there is none, or where it says "unrated". */
  readonly rating: number | null;
  /** What its sidecar says; null where none came. */
  readonly sidecar: SidecarWords | null;
}

/** What came with a frame. A file that cannot be read says nothing. */
export async function cameAlong(
  row: Pick<FrameRow, 'files'>,
  shown: FileRow,
  kind: ContentKind,
  pathOf: (file: FileRow) => string,
  reader: Pick<MetadataReader, 'readRating' | 'readSidecar'>,
): Promise<CameAlong> {
  const file = sidecarOf(row);
  try {
    if (file !== undefined) {
      const sidecar = await reader.readSidecar(pathOf(file));
      return { rating: rated(sidecar.rating ?? null), sidecar };
    }
    const path = pathOf(shown);
    if (saysNothing(kind, shown.name) || !(await speaksOf(path, 'xmp:Rating')))
      return { rating: null, sidecar: null };
    return { rating: rated(await reader.readRating(path)), sidecar: null };
  } catch {
    return { rating: null, sidecar: null };
  }
}

/** The sidecar that came with a frame: of several the newest. */
export function sidecarOf({ files }: Pick<FrameRow, 'files'>): FileRow | undefined {
  return files.findLast(({ name, path }) => path !== null && /\.xmp$/i.test(name));
}

function rated(rating: number | null): number | null {
  return rating === 0 ? null : rating;
}
