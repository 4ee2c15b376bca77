import { copyFile } from './copy-file.ts';
import { copyJournal } from './copy-journal.ts';
import type { Copier, PlaceAddress } from './copy-shapes.ts';
import { checkPlace, foundPlace } from './place-marker.ts';

/** Copies in line: for tests, and inside the thread. */
export function inlineCopier(address: PlaceAddress): Copier {
  return {
    check: async (found) => (found ? foundPlace(address) : checkPlace(address)),
    copy: async (file) => copyFile(address, file),
    copyJournal: async () => copyJournal(address),
    close: async () => {},
  };
}
