import type { FileRow, FrameRow } from '../register/index.ts';
import { type FileFacts, treatmentOf } from './frame-facts.ts';
import type { RenderedBy } from './rendered-by.ts';
import type { RenderSource } from './renderings.ts';

/** The file a frame is shown by: the raw before the JPEG, a whole one before a damaged one. */
export function fileToShow(row: FrameRow): FileRow | null {
  const kept = row.files.filter(({ path, sha256 }) => path !== null && sha256 !== null);
  const whole = kept.filter(({ state }) => state !== 'damaged');
  const candidates = whole.length > 0 ? whole : kept;
  return [...candidates].sort((a, b) => showingOrder(a.name) - showingOrder(b.name))[0] ?? null;
}

/** Only the order among the files of one frame; what a file is, its content decides. */
function showingOrder(name: string): number {
  if (/\.(xmp|thm|wav|txt)$/i.test(name)) return 2;
  return /\.jpe?g$/i.test(name) ? 1 : 0;
}

/** What renderings of a file are made from; null for a file that is no picture to us, or is not kept yet. */
export function renderSource(
  file: FileRow,
  path: string,
  kind: FileFacts['kind'],
  by: RenderedBy,
): RenderSource | null {
  const treatment = treatmentOf(kind);
  if (treatment === 'none') return null;
  return renderSourceAs(file, path, treatment === 'develop' ? 'raw' : 'raster', by);
}

/** The same for a file whose kind of picture is known; null where it is not kept yet. */
export function renderSourceAs(
  file: FileRow,
  path: string,
  kind: RenderSource['kind'],
  { balance, look }: RenderedBy,
): RenderSource | null {
  if (file.sha256 === null) return null;
  const raw = kind === 'raw';
  return {
    path,
    sha256: file.sha256,
    kind,
    // A finished picture was given its tones and its balance by its camera.
    look: raw ? look.document : null,
    lookHash: raw ? look.hash : '',
    balance: raw && balance !== null ? balance.balance : null,
    balanceHash: raw && balance !== null ? balance.hash : '',
  };
}

export function pictureVersion(row: FrameRow): number {
  const version = row.picture?.version;
  return typeof version === 'number' ? version : 0;
}
