import { constants, setPriority } from 'node:os';
import { endWithStation } from '../end-with-station.ts';
import { carryOut } from './carry-out.ts';
import type { ReadingPace } from './reading.ts';
import type { ReadingRequest } from './reading-messages.ts';

/** Entry of a reading process: one reading in its life. Runs from the built tree, started by start-reading.ts alone, with the station's process as its one argument. */

let pace: ReadingPace = { restTimes: 0, paused: false };
let isBusy = false;

process.on('message', (request: ReadingRequest) => {
  if (request.kind === 'again' || request.kind === 'pace') pace = request.pace;
  if (request.kind === 'pace' || isBusy) return;
  isBusy = true;
  if (request.kind === 'again') stepBack();
  void carryOut(
    request,
    () => pace,
    (news) => process.send?.(news),
  ).then(() => process.disconnect());
});
endWithStation(Number(process.argv[2]));
// The station is gone, however it ended.
process.on('disconnect', () => process.exit(0));
// Ctrl+C reaches every process of a terminal; the station says when this one ends.
process.on('SIGINT', () => {});

/** Behind everything else that computes. */
function stepBack(): void {
  try {
    setPriority(constants.priority.PRIORITY_LOW);
  } catch {
    // A system that does not let it reads all the same.
  }
}
