import { parentPort, workerData } from 'node:worker_threads';
import { copyFile } from './copy-file.ts';
import { copyJournal } from './copy-journal.ts';
import type { CopyAnswer, CopyRequest } from './copy-messages.ts';
import type { PlaceAddress } from './copy-shapes.ts';
import { checkPlace, foundPlace } from './place-marker.ts';

/** Entry of a copy thread: everything that touches a second place. Runs from the built tree. */

// Started by copy-thread.ts alone, with an address.
const address = workerData as PlaceAddress;

parentPort?.on('message', (request: CopyRequest) => parentPort?.postMessage(answer(request)));

function answer(request: CopyRequest): CopyAnswer {
  switch (request.kind) {
    case 'check':
      return { kind: 'check', outcome: request.found ? foundPlace(address) : checkPlace(address) };
    case 'copy':
      return { kind: 'copy', outcome: copyFile(address, request.file) };
    case 'journal':
      return { kind: 'journal', outcome: copyJournal(address) };
  }
}
