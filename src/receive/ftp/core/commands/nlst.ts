import type { Command } from '../command.ts';
import { destinationOrHere } from '../destination.ts';
import { sendListing, withoutListOptions } from '../send-listing.ts';

/** RFC 959 section 4.1.3: names only. */
export const nlst: Command = {
  verb: 'NLST',
  needs: 'login',
  run: (turn, argument) =>
    sendListing(turn, destinationOrHere(turn, withoutListOptions(argument)), {
      line: (entry) => entry.name,
      file: 'its-line',
    }),
};
