import type { Command } from '../command.ts';
import { destinationOrHere, existing } from '../destination.ts';
import { factsLine } from '../listing.ts';

/** RFC 3659 section 7: one entry, over the control connection, with its whole path. */
export const mlst: Command = {
  verb: 'MLST',
  needs: 'login',
  *run(turn, argument) {
    const found = yield* existing(destinationOrHere(turn, argument));
    if ('refusal' in found) return found.refusal;
    return { code: 250, text: 'Entry:', inner: [factsLine(found.entry, turn.state.facts, found.path)] };
  },
};
