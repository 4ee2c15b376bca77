import type { Command } from '../command.ts';
import { destinationOrHere } from '../destination.ts';
import { factsLine } from '../listing.ts';
import { reply } from '../reply.ts';
import { sendListing } from '../send-listing.ts';

/** RFC 3659 section 7: a folder only, over the data connection. */
export const mlsd: Command = {
  verb: 'MLSD',
  needs: 'login',
  run: (turn, argument) =>
    sendListing(turn, destinationOrHere(turn, argument), {
      line: (entry) => factsLine(entry, turn.state.facts),
      file: reply(501, 'That is a file: use MLST.'),
    }),
};
