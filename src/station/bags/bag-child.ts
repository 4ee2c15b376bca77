import { constants, setPriority } from 'node:os';
import type { BagRequest } from './bag-messages.ts';
import { carryOutBag } from './carry-out-bag.ts';

/** Entry of a packing process: one bag in its life. Runs from the built tree, started by start-bag.ts alone. */

let paused = false;
let isBusy = false;

process.on('message', (request: BagRequest) => {
  paused = request.paused;
  if (request.kind === 'pace' || isBusy) return;
  isBusy = true;
  stepBack();
  void carryOutBag(
    request.home,
    request.task,
    () => paused,
    (news) => process.send?.(news),
  ).then(() => process.disconnect());
});
// The station is gone, however it ended.
process.on('disconnect', () => process.exit(0));
// Ctrl+C reaches every process of a terminal; the station says when this one ends.
process.on('SIGINT', () => {});

/** Behind everything else that computes. */
function stepBack(): void {
  try {
    setPriority(constants.priority.PRIORITY_LOW);
  } catch {
    // A system that does not let it packs all the same.
  }
}
