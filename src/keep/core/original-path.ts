import { crc32c } from './kernels/crc32c.ts';
import { safeName } from './safe-name.ts';

/**
 * Longest run of folders that an original keeps below its camera's folder, characters. The camera may nest 16 deep
 * with 255 bytes each; a whole path has to stay under what systems allow (Linux 4096 bytes, and people copy homes to
 * places that allow less).
 */
export const foldersCharactersMax = 400;

/** Where an original would like to lie, below the home: `jobs/CODE/originals/CAMERA/DCIM/100ABCDE/X.DNG`. */
export interface OriginalPath {
  readonly folder: string;
  readonly name: string;
}

export function originalPath(job: string, camera: string, viewPath: string): OriginalPath {
  const parts = viewPath
    .split('/')
    .filter((part) => part !== '')
    .map(safeName);
  const name = parts.pop() ?? '_';
  const folders = parts.join('/');
  const kept = folders.length <= foldersCharactersMax ? parts : [markOf(folders)];
  return { folder: ['jobs', safeName(job), 'originals', safeName(camera), ...kept].join('/'), name };
}

function markOf(folders: string): string {
  return `deep~${crc32c(new TextEncoder().encode(folders)).toString(16).padStart(8, '0')}`;
}
