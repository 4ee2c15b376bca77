import type { OpenHow } from '../../core/camera-folder.ts';
import { nameOf } from '../../core/path.ts';
import { finish, setTime } from './finish.ts';
import { type OpenFile, spoiledStatus } from './open-file.ts';
import { begin, statusOf } from './path-requests.ts';
import { type Asking, ask } from './questions.ts';
import type { HandleRequest, WriteRequest } from './request.ts';
import type { Response } from './response.ts';
import {
  endOfList,
  noReading,
  noTruncating,
  ok,
  orderStatus,
  outcomeStatus,
  type Status,
  unknownHandle,
} from './status.ts';
import type { OpenListing, Turn } from './turn.ts';

/** What names a file that is being written. */
export function* answerFile(turn: Turn, file: OpenFile, request: HandleRequest): Asking<Response> {
  switch (request.type) {
    case 'write':
      return yield* write(turn, file, request);
    case 'close':
      return yield* close(turn, file);
    case 'sync':
      return file.state === 'open' ? statusOf(yield* ask('sync', { handle: file.handle })) : ok;
    case 'handle-stat':
      return yield* handleStat(file);
    case 'set-handle-stat':
      return setHandleStat(file, request);
    case 'read':
      return noReading;
    case 'next-names':
      return unknownHandle;
  }
}

/** What names a listing. */
export function answerListing(turn: Turn, listing: OpenListing, request: HandleRequest): Response {
  if (request.type === 'close') {
    turn.remove(request.handle);
    return ok;
  }
  if (request.type !== 'next-names') return unknownHandle;
  const entries = listing.entries.slice(listing.sent, listing.sent + turn.limits.namesPerAnswerMax);
  listing.sent += entries.length;
  return entries.length === 0 ? endOfList : { kind: 'names', entries };
}

/**
 * WRITE is answered once its bytes have a place in memory; when there is none, nothing more is heard of the client.
 * A disk that fails is told by the next WRITE and by CLOSE.
 */
function* write(turn: Turn, file: OpenFile, request: WriteRequest): Asking<Status> {
  if (file.spoiled !== null) return spoiledStatus(file.spoiled);
  if (request.sizeBytes === 0) return ok;
  if (file.state === 'waiting') {
    const refused = yield* begin(turn, file, yield* placeOfFirst(file, request));
    if (refused !== null) return refused;
  }
  return file.take(request, (pieces) => turn.write(file, pieces));
}

/** Where a file goes on that was there when it was opened: where its first byte says. */
function* placeOfFirst(file: OpenFile, { offsetBytes }: WriteRequest): Asking<OpenHow['at']> {
  if (file.flags.appends) return 'end';
  if (offsetBytes === 0) return 'start';
  const there = yield* ask('stat', { path: file.path });
  const heldBytes = there.ok ? (there.value?.sizeBytes ?? 0) : 0;
  // Behind the end: the first of parallel writes to come is not the first of the file; the gap will be filled.
  return offsetBytes > heldBytes ? 'end' : { offsetBytes };
}

function* close(turn: Turn, file: OpenFile): Asking<Status> {
  const { state, spoiled, hasGap } = file;
  if (state !== 'open') {
    turn.remove(file.handle);
    yield* setTime(file);
    return spoiled === null ? ok : spoiledStatus(spoiled);
  }
  const outcome = yield* finish(turn, file, spoiled !== null || hasGap ? 'aborted' : 'closed');
  yield* setTime(file);
  if (outcome.kind === 'failed') return outcomeStatus(outcome);
  if (spoiled !== null) return spoiledStatus(spoiled);
  return hasGap ? orderStatus('gap') : outcomeStatus(outcome);
}

function* handleStat(file: OpenFile): Asking<Response> {
  const there = yield* ask('stat', { path: file.path });
  const entry = there.ok ? there.value : null;
  const sizeBytes = file.state === 'open' ? file.nextBytes : (entry?.sizeBytes ?? 0);
  const modifiedMs = entry?.modifiedMs ?? 0;
  return { kind: 'attributes', entry: { name: nameOf(file.path), kind: 'file', sizeBytes, modifiedMs } };
}

/**
 * A time is set once the file is closed, so that no folder has to show one for a file that is not there yet. A size says something only where it is smaller than what has come: OpenSSH's client cuts
 * a file so, back to what was acknowledged, when it is interrupted, and then closes it like any other. That must not
 * pass for the end of the file.
 */
function setHandleStat(
  file: OpenFile,
  { attributes }: Extract<HandleRequest, { type: 'set-handle-stat' }>,
): Status {
  const { sizeBytes, modifiedMs } = attributes;
  if (sizeBytes !== null && sizeBytes < file.nextBytes) return file.spoil('cut-back');
  if (sizeBytes !== null && sizeBytes > file.nextBytes) return noTruncating;
  file.modifiedMs = modifiedMs ?? file.modifiedMs;
  return ok;
}
