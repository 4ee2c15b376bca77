import { listLine } from '../../../core/list-line.ts';
import type { Command } from '../command.ts';
import { destination } from '../destination.ts';
import { type Reply, reply } from '../reply.ts';
import { entriesOf } from '../send-listing.ts';
import type { SessionState } from '../session-state.ts';

/** RFC 959 section 4.1.3: the state of the session, or a listing over the control connection. */
export const stat: Command = {
  verb: 'STAT',
  needs: 'login',
  *run(turn, argument) {
    if (argument === null || argument === '') return statusReply(turn.state, 'No transfer');
    const listed = yield* entriesOf(destination(turn, argument), { file: 'its-line' });
    if ('refusal' in listed) return listed.refusal;
    if (listed.entries.length > turn.limits.statEntriesMax)
      return reply(450, 'That is too much to say here: use LIST.');
    return { code: 213, text: 'Entries:', inner: listed.entries.map((entry) => listLine(entry, turn.nowMs)) };
  },
};

/** The 211 of STAT. `transfer` says what is being transferred. */
export function statusReply(state: SessionState, transfer: string): Reply {
  return {
    code: 211,
    text: 'Status:',
    inner: [state.camera === null ? 'Not logged in' : 'Logged in', `From ${state.peerAddress}`, transfer],
  };
}
