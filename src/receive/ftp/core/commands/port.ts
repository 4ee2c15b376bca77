import type { Command, Turn } from '../command.ts';
import { type DataTarget, parseEprtArgument, parsePortArgument, refusedTarget } from '../data-target.ts';
import { type Asking, ask } from '../questions.ts';
import { type Reply, reply } from '../reply.ts';

/** RFC 959 section 4.1.2: active mode. The client is dialled when a transfer wants the connection, not before. */
export const port: Command = {
  verb: 'PORT',
  needs: 'login',
  keepsCarry: true,
  *run(turn, argument) {
    const target = parsePortArgument(argument ?? '');
    if (target === null) return reply(501, 'PORT takes six numbers: address and port.');
    return yield* aimAt(turn, target);
  },
};

/** RFC 2428 section 2. Only the protocol of the control connection can be the client's own address. */
export const eprt: Command = {
  verb: 'EPRT',
  needs: 'login',
  keepsCarry: true,
  *run(turn, argument) {
    const target = parseEprtArgument(argument ?? '');
    if (target === null) return reply(501, 'EPRT takes |protocol|address|port|.');
    if (target === 'unknown-protocol') return reply(522, 'Network protocol not supported, use (1,2)');
    return yield* aimAt(turn, target);
  },
};

function* aimAt(turn: Turn, target: DataTarget): Asking<Reply> {
  if (turn.state.epsvOnly) return reply(503, 'After EPSV ALL only EPSV is taken.');
  const refused = refusedTarget(target, turn.state);
  if (refused !== null) return refused;
  yield* ask('aim', { port: target.port });
  turn.state.dataWay = 'aimed';
  return reply(200, 'Data goes to your port.');
}
