import { listLine } from '../../../core/list-line.ts';
import type { Command } from '../command.ts';
import { destinationOrHere } from '../destination.ts';
import { sendListing, withoutListOptions } from '../send-listing.ts';

/** RFC 959 section 4.1.3. */
export const list: Command = {
  verb: 'LIST',
  needs: 'login',
  run: (turn, argument) =>
    sendListing(turn, destinationOrHere(turn, withoutListOptions(argument)), {
      line: (entry) => listLine(entry, turn.nowMs),
      file: 'its-line',
    }),
};
