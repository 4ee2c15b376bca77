import type { ArrivalEnd, ArrivalOutcome, OpenHow } from '../../core/camera-folder.ts';
import { beganAgainFinding, outcomeFinding } from '../../core/outcome-findings.ts';
import { nameOf, parentOf } from '../../core/path.ts';
import type { Turn } from './command.ts';
import { dropData, meetDataConnection, refusedTransfer } from './data-connection.ts';
import { destination } from './destination.ts';
import { type Asking, ask, askChange } from './questions.ts';
import { folderRefusal, nameRefusal, noFolder } from './refusals.ts';
import { type Reply, reply } from './reply.ts';

/** Where a file goes and the 150 that says so, or the reply that refuses it. */
export type StoreTarget =
  | { readonly path: string; readonly ready: Reply }
  | { readonly refusal: Reply; readonly path?: string };

/**
 * STOR, APPE and STOU: takes one file in. `target` is asked only once there is a way to a data connection.
 *
 * What can be refused is refused before the 150. The arrival is opened only once the data connection is there: an
 * open at `start` gives up what an earlier attempt left, and a client that never connects must not cost that. A
 * client that waits for the 150 before it connects, or before it begins TLS, gets it first.
 */
export function* store(
  turn: Turn,
  verb: string,
  target: Asking<StoreTarget>,
  at: OpenHow['at'],
): Asking<Reply> {
  const announcedBytes = turn.state.announcedBytes;
  turn.state.announcedBytes = null;
  const unready = refusedTransfer(turn);
  if (unready !== null) return unready;
  const via = turn.state.channel === 'tls' ? 'ftps' : 'ftp';
  const result = yield* storeOverData(turn, target, { via, at, announcedBytes });
  dropData(turn);
  if ('refused' in result) {
    const { code, why = 'unknown' } = result.refused;
    turn.report('note', { code: 'line.refused-command', args: { verb, ...result.about, why, reply: code } });
    return result.refused;
  }
  return result.done;
}

/** `about` names the file, once it is known. */
type Stored =
  | { readonly refused: Reply; readonly about: { readonly name?: string } }
  | { readonly done: Reply };

function* storeOverData(turn: Turn, target: Asking<StoreTarget>, how: OpenHow): Asking<Stored> {
  const where = yield* target;
  if ('refusal' in where) {
    return { refused: where.refusal, about: where.path === undefined ? {} : { name: nameOf(where.path) } };
  }
  const { ready } = where;
  const name = nameOf(where.path);
  const saidEarly = turn.state.dataWay !== 'connected' || turn.state.protection === 'private';
  if (saidEarly) turn.say(ready);
  const missed = yield* meetDataConnection(turn);
  if (missed !== null) return { done: missed };

  const opened = yield* askChange('open', { path: where.path, how });
  if (!opened.ok) {
    // A file that is not there is begun: what was not found is its folder, gone meanwhile.
    const refused = opened.code === 'not-found' ? noFolder : folderRefusal(opened.code);
    return { refused, about: { name } };
  }
  if (!saidEarly) turn.say(ready);
  turn.state.missedFolder = null;
  const { offsetBytes } = opened.value;
  turn.report('note', {
    code: offsetBytes > 0 ? 'line.upload-resumed' : 'line.upload-started',
    args: { name, offsetBytes },
  });
  const { end } = yield* ask('receive', {});
  const outcome = yield* ask('finish', { end });
  reportOutcome(turn, where.path, end, outcome);
  return { done: outcomeReply(end, outcome) };
}

/** Where REST says to go on, null where it said nothing or the beginning. */
export function restartPoint({ carry }: Turn): { readonly offsetBytes: number } | null {
  return carry?.kind === 'restart' && carry.offsetBytes > 0 ? { offsetBytes: carry.offsetBytes } : null;
}

/** STOR and APPE. A missing name is said before a missing way to a data connection: only the one is a slip of the client. */
export function* storeNamed(
  turn: Turn,
  verb: string,
  argument: string | null,
  at: OpenHow['at'],
): Asking<Reply> {
  if (argument === null || argument === '') return nameRefusal('no-name');
  return yield* store(turn, verb, namedTarget(turn, argument), at);
}

/** The target of STOR and APPE: the path the client names. */
function* namedTarget(turn: Turn, argument: string | null): Asking<StoreTarget> {
  const where = destination(turn, argument);
  if ('refusal' in where) return where;
  const refusal = yield* refusedEarly(where.path);
  return refusal === null
    ? { path: where.path, ready: reply(150, `Ready for ${nameOf(where.path)}.`) }
    : { refusal, path: where.path };
}

function* refusedEarly(path: string): Asking<Reply | null> {
  const there = yield* ask('stat', { path });
  if (!there.ok) return folderRefusal(there.code);
  if (there.value !== null) return there.value.kind === 'folder' ? folderRefusal('not-a-file') : null;
  const parent = yield* ask('stat', { path: parentOf(path) });
  if (!parent.ok) return folderRefusal(parent.code);
  if (parent.value === null) return noFolder;
  return parent.value.kind === 'folder' ? null : folderRefusal('not-a-folder');
}

/**
 * The last reply of an upload. 226 only for what is durable; a file that broke off is 451 where the client closed in
 * order, since then the line was sound, and 426 where the connection itself ended (RFC 959 section 5.4, STOR).
 */
export function outcomeReply(end: ArrivalEnd, outcome: ArrivalOutcome): Reply {
  switch (outcome.kind) {
    case 'kept':
      return reply(226, `Kept, ${outcome.sizeBytes} bytes.`);
    case 'kept-damaged':
      return reply(226, `Kept, ${outcome.sizeBytes} bytes, though the file is cut short.`);
    case 'broken-off':
      return end === 'closed'
        ? reply(451, `The file is cut short after ${outcome.sizeBytes} bytes. Send it again.`)
        : reply(426, `${endTexts[end]} after ${outcome.sizeBytes} bytes. Resume or send it again.`);
    case 'failed':
      return folderRefusal(outcome.code);
  }
}

const endTexts: Readonly<Record<Exclude<ArrivalEnd, 'closed'>, string>> = {
  reset: 'The data connection broke',
  unclosed: 'The encrypted data connection ended without close_notify',
  'control-lost': 'The control connection broke',
  aborted: 'Aborted',
  stalled: 'No data came for too long',
  stopping: 'The station is stopping',
  dismissed: 'This camera may not stay',
  failed: 'The disk failed',
};

function reportOutcome(turn: Turn, path: string, end: ArrivalEnd, outcome: ArrivalOutcome): void {
  const name = nameOf(path);
  turn.report('note', outcomeFinding(path, end, outcome));
  const again = beganAgainFinding(name, outcome);
  if (again !== null) turn.report('note', again);
}
