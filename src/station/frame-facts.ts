import type { CaptureFacts, Finding, Orientation } from '../facts/index.ts';
import type { ContentKind, Inspection } from '../formats/index.ts';
import { captureFactsOf, type MetadataReader } from '../metadata/index.ts';
import type { FrameFacts } from '../register/index.ts';
import type { CameAlong } from './rating.ts';
import { saysNothing } from './side-files.ts';
import { speaksOf } from './speaks-of.ts';

/** What a look into one file's bytes says of its frame. */
export interface FileFacts {
  readonly kind: ContentKind;
  readonly capture: CaptureFacts;
}

/** Kinds whose tags `formats` does not read; makers' notes and boxes are asked of the reader. */
const readByReader: readonly ContentKind[] = ['iso-bmff-raw', 'raf', 'unknown', 'webp', 'png'];

/** From the structure alone: at hand while the file arrives. */
export function factsOfInspection(inspection: Inspection, zoneOffsetMinutes: number): FileFacts {
  return {
    kind: inspection.kind,
    capture: captureFactsOf(inspection, { zoneOffsetMinutes }),
  };
}

/** With the reader's help where the structure is not ours to read; a reader that fails leaves what the structure said. */
export async function factsOfFile(
  path: string,
  inspection: Inspection,
  reader: MetadataReader,
  zoneOffsetMinutes: number,
): Promise<FileFacts> {
  const own = factsOfInspection(inspection, zoneOffsetMinutes);
  if (saysNothing(inspection.kind, path)) return own;
  if (!readByReader.includes(inspection.kind)) return withFocusRegion(own, path, reader);
  try {
    const read = await reader.readFacts(path, { zoneOffsetMinutes });
    return await withFocusRegion({ ...own, capture: { ...read, ...own.capture } }, path, reader);
  } catch {
    return own;
  }
}

/** Where Exif does not say where the camera focused, an image region in the XMP may. */
async function withFocusRegion(facts: FileFacts, path: string, reader: MetadataReader): Promise<FileFacts> {
  if (facts.capture.focusArea !== undefined || treatmentOf(facts.kind) === 'none') return facts;
  try {
    const focusArea = (await speaksOf(path, 'mwg-rs:')) ? await reader.readFocusRegion(path) : null;
    return focusArea === null ? facts : { ...facts, capture: { ...facts.capture, focusArea } };
  } catch {
    return facts;
  }
}

/** With the rating and the sidecar that came with it, if they did. */
export function withCameAlong(facts: FileFacts, { rating, sidecar }: CameAlong): FileFacts {
  const capture = {
    ...facts.capture,
    ...(rating === null ? {} : { rating }),
    ...(sidecar === null ? {} : { sidecar }),
  };
  return { ...facts, capture };
}

/** How a file of this kind is made visible. */
export type Treatment = 'develop' | 'show' | 'none';

export function treatmentOf(kind: ContentKind): Treatment {
  switch (kind) {
    case 'dng':
    case 'tiff-raw':
    case 'iso-bmff-raw':
    case 'raf':
      return 'develop';
    case 'jpeg':
    case 'png':
    case 'webp':
    case 'tiff':
      return 'show';
    case 'text':
    case 'unknown':
    case 'empty':
      return 'none';
  }
}

/** Why a file that is no picture to us is not shown. */
export function notShownBecause(kind: ContentKind, name: string): Finding {
  if (kind === 'empty') return { code: 'picture.empty', args: { name } };
  if (kind === 'text') return { code: 'picture.not-a-picture', args: { name, kind: 'text' } };
  return { code: 'picture.unknown-kind', args: { name } };
}

/** Upright size of the full picture, pixels; null where nobody says. */
export function uprightSize(capture: CaptureFacts): { width: number; height: number } | null {
  const { widthPx, heightPx } = capture;
  if (widthPx === undefined || heightPx === undefined || widthPx < 1 || heightPx < 1) return null;
  const orientation: Orientation = capture.orientation ?? 1;
  return orientation >= 5 ? { width: heightPx, height: widthPx } : { width: widthPx, height: heightPx };
}

/** What is known of a frame before anything of it was looked into. */
export const nothingFound: FrameFacts = {
  kind: null,
  shutterMs: null,
  firstViewMs: null,
  renderedMs: null,
  judgedMs: null,
  capture: null,
  picture: null,
  seen: null,
  readings: null,
  readingDetail: null,
};
