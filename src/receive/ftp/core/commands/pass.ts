import type { Command, Turn } from '../command.ts';
import { ask } from '../questions.ts';
import { type Reply, reply } from '../reply.ts';

/** RFC 959 section 4.1.1; a wrong log-in waits, longer each time, and ends the session soon (RFC 2577 section 5). */
export const pass: Command = {
  verb: 'PASS',
  needs: 'nothing',
  *run(turn, argument) {
    const { state } = turn;
    if (state.user === null) return reply(503, 'Send USER first.');
    const user = state.user;
    state.user = null;
    const { camera, failures } = yield* ask('log-in', { user, password: argument ?? '' });
    if (camera !== null) return welcome(turn, user, camera);
    state.loginFailures += 1;
    turn.report('refused', {
      code: 'line.wrong-login',
      args: { address: state.peerAddress, user: short(user) },
    });
    // Counted from the line: how long the log-in was looked at must not show in the delay.
    yield* ask('pause', { ms: delayMs(turn, failures), sinceMs: turn.nowMs });
    return refuse(turn, failures);
  },
};

function welcome(turn: Turn, user: string, camera: string): Reply {
  turn.state.camera = camera;
  turn.state.cwd = '/';
  turn.report('logged-in', {
    code: 'line.logged-in',
    args: { user: short(user), address: turn.state.peerAddress },
  });
  return reply(230, 'Welcome. Send your frames.');
}

function refuse(turn: Turn, failures: number): Reply {
  const { state, limits } = turn;
  const often = state.loginFailures >= limits.loginFailuresMax || failures > limits.loginFailuresPerMinuteMax;
  if (!often) return reply(530, 'User or password is wrong.');
  turn.report('refused', { code: 'line.too-many-logins', args: { address: state.peerAddress } });
  turn.hangUp();
  return reply(421, 'User or password was wrong too often. Goodbye.');
}

function delayMs({ limits }: Turn, failures: number): number {
  return Math.min(limits.loginDelayMaxMs, limits.loginDelayMs * 2 ** Math.max(0, failures - 1));
}

/** A stranger's words for a log: the first 64 characters. */
function short(text: string): string {
  return text.slice(0, 64);
}
