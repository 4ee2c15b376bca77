import type { Wholeness } from '../facts/index.ts';
import type { BoundedReader } from './bounded-reader.ts';
import type { ContentKind } from './content-kind.ts';
import type { Inspection } from './inspection.ts';
import type { PictureTags } from './picture-tags.ts';
import { nextBetterEnd, type Preview } from './preview.ts';

/** What the parser of one container found. */
export interface Structure {
  readonly kind: ContentKind;
  /** In any order. */
  readonly previews: readonly Preview[];
  readonly tags: PictureTags;
  /** The full picture before orientation, pixels; null where nobody says, or not yet. */
  readonly size: PixelSize | null;
  /** Once everything it points to lies in the file, nothing more can be missing. */
  readonly provable: boolean;
}

export interface PixelSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** The inspection of a container that points to everything it holds, by the account that `reader` kept. */
export function structureInspection(reader: BoundedReader, structure: Structure): Inspection {
  const previews = [...structure.previews]
    .sort((a, b) => a.offset + a.length - (b.offset + b.length))
    .slice(0, reader.limits.previewsMax);
  return {
    kind: structure.kind,
    previews,
    wanted: reader.wanted,
    wantedNext: nextPosition(reader, previews),
    wholeness: wholenessOf(reader, structure.provable),
    expectedBytes: reader.provenEnd === 0 ? null : reader.provenEnd,
    tags: structure.tags,
    pictureWidthPx: structure.size?.widthPx ?? null,
    pictureHeightPx: structure.size?.heightPx ?? null,
    jpeg: null,
    issues: reader.issues,
    resume: null,
  };
}

/**
 * `cut` wherever the structure points past what is there; `whole` only where all of it was followed. How long a cut file
 * should be is known only where all of its structure came: a directory that is missing may point to the largest part.
 */
function wholenessOf(reader: BoundedReader, provable: boolean): Wholeness {
  if (reader.provenEnd > reader.source.sizeBytes)
    return { kind: 'cut', expectedBytes: reader.structureMissing ? null : reader.provenEnd };
  const isFollowed = reader.wanted.length === 0 && !reader.doubted;
  return isFollowed && provable ? { kind: 'whole' } : { kind: 'unknown' };
}

function nextPosition(reader: BoundedReader, previews: readonly Preview[]): number | null {
  if (reader.source.ended) return null;
  const ends = [reader.awaitedEnd, nextBetterEnd(previews)].filter((end) => end !== null);
  return ends.length === 0 ? null : Math.min(...ends);
}
