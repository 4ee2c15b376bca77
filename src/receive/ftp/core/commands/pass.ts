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
    const { camera, failures, isTold } = yield* ask('log-in', { user, password: argument ?? '' });
    if (camera !== null) return welcome(turn, user, camera);
    state.loginFailures += 1;
    const often = isTooOften(turn, failures);
    // One line for one log-in, whatever else comes of it.
    if (isTold !== true) {
      const code = often ? 'line.too-many-logins' : 'line.wrong-login';
      turn.report('refused', { code, args: { address: state.peerAddress, user: short(user) } });
    }
    // Counted from the line: how long the log-in was looked at must not show in the delay.
    yield* ask('pause', { ms: delayMs(turn, failures), sinceMs: turn.nowMs });
    return refuse(turn, often);
  },
};

function welcome(turn: Turn, user: string, camera: string): Reply {
  turn.state.camera = camera;
  turn.state.cwd = '/';
  turn.report('logged-in', {
    code: 'line.logged-in',
    args: { user: short(user), address: turn.state.peerAddress, local: turn.state.localAddress },
  });
  return reply(230, 'Welcome. Send your frames.');
}

function isTooOften({ state, limits }: Turn, failures: number): boolean {
  return state.loginFailures >= limits.loginFailuresMax || failures > limits.loginFailuresPerMinuteMax;
}

function refuse(turn: Turn, often: boolean): Reply {
  if (!often) return reply(530, 'User or password is wrong.');
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
