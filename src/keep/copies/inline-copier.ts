import { copyFile } from './copy-file.ts';
import { copyJournal } from './copy-journal.ts';
import type { Copier, CopyWay } from './copy-shapes.ts';
import { lookAtCopies } from './look-at-copies.ts';
import { checkPlace, foundPlace } from './place-marker.ts';

/** Copies in line: for tests, and where a process cannot be had. */
export function inlineCopier(way: CopyWay): Copier {
  return {
    check: async (place, found) => (found ? foundPlace : checkPlace)({ ...way, place }),
    copy: async (place, file) => copyFile({ ...way, place }, file),
    look: async (place, copies) => lookAtCopies({ ...way, place }, copies),
    copyJournal: async (place) => copyJournal({ ...way, place }),
    close: async () => {},
  };
}
