import { join } from 'node:path';
import type { FileRow, FrameRow } from '../register/index.ts';
import { findPreview } from './arrival-watch.ts';
import type { CutPreview } from './core/first-view.ts';

/** Where a file of the register lies now, absolute. */
export function pathOfFile(homePath: string, file: FileRow): string {
  return file.path === null ? join(homePath, 'incoming', file.incoming) : join(homePath, file.path);
}

/** The best preview inside the frame's files as they lie on disk, or null. */
export async function previewOnDisk(row: FrameRow, homePath: string): Promise<CutPreview | null> {
  for (const file of row.files) {
    const preview = await findPreview(pathOfFile(homePath, file), file.sizeBytes).catch(() => null);
    if (preview !== null) return preview;
  }
  return null;
}
