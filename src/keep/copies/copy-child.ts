import { endWithStation } from '../end-with-station.ts';
import { copyFile } from './copy-file.ts';
import { copyJournal } from './copy-journal.ts';
import type { CopyAnswer, CopyRequest } from './copy-messages.ts';
import type { CopyWay } from './copy-shapes.ts';
import { lookAtCopies } from './look-at-copies.ts';
import { checkPlace, foundPlace } from './place-marker.ts';

/** Entry of a copy process: everything that touches a second place. Runs from the built tree. */

// Started by copy-process.ts alone, with the way and the station's process as its arguments.
const way = JSON.parse(process.argv[2] ?? '') as CopyWay;

process.on('message', (request: CopyRequest) => process.send?.(answer(request)));
// The next station copies the same files: one that is in the middle of a long one must not write on beside it.
endWithStation(Number(process.argv[3]));
// The station is gone, however it ended.
process.on('disconnect', () => process.exit(0));
// Ctrl+C reaches every process of a terminal; the station says when this one ends.
process.on('SIGINT', () => {});

function answer(request: CopyRequest): CopyAnswer {
  const address = { ...way, place: request.place };
  switch (request.kind) {
    case 'check':
      return { kind: 'check', outcome: request.found ? foundPlace(address) : checkPlace(address) };
    case 'copy':
      return { kind: 'copy', outcome: copyFile(address, request.file) };
    case 'look':
      return { kind: 'look', outcome: lookAtCopies(address, request.copies) };
    case 'journal':
      return { kind: 'journal', outcome: copyJournal(address) };
  }
}
