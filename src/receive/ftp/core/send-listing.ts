import type { FolderEntry } from '../../core/camera-folder.ts';
import type { Turn } from './command.ts';
import { dropData, meetDataConnection, refusedTransfer } from './data-connection.ts';
import type { Destination } from './destination.ts';
import { existing } from './destination.ts';
import { linesInPieces } from './listing.ts';
import { type Asking, ask } from './questions.ts';
import { folderRefusal } from './refusals.ts';
import { type Reply, reply } from './reply.ts';

/** What LIST, NLST and MLSD share: entries of a folder, one line each, over the data connection. */
export interface ListingForm {
  line(entry: FolderEntry): string;
  /** What a file in place of a folder gets: its own line, or a refusal (RFC 3659 section 7.2.1 for MLSD). */
  readonly file: 'its-line' | Reply;
}

export function* sendListing(turn: Turn, where: Destination, form: ListingForm): Asking<Reply> {
  const unready = refusedTransfer(turn);
  if (unready !== null) return unready;
  const last = yield* sendOverData(turn, where, form);
  dropData(turn);
  return last;
}

function* sendOverData(turn: Turn, where: Destination, form: ListingForm): Asking<Reply> {
  const listed = yield* entriesOf(where, form);
  if ('refusal' in listed) return listed.refusal;
  turn.say(reply(150, 'Here comes the list.'));
  const missed = yield* meetDataConnection(turn);
  if (missed !== null) return missed;
  const sent = yield* ask('send', { pieces: linesInPieces(linesOf(listed.entries, form)) });
  return sent ? reply(226, 'That was the list.') : reply(426, 'The data connection broke.');
}

function* linesOf(entries: readonly FolderEntry[], form: ListingForm): Generator<string> {
  for (const entry of entries) yield form.line(entry);
}

type Listed = { readonly entries: readonly FolderEntry[] } | { readonly refusal: Reply };

/** The entries a listing command means. */
export function* entriesOf(where: Destination, form: Pick<ListingForm, 'file'>): Asking<Listed> {
  const found = yield* existing(where);
  if ('refusal' in found) return found;
  if (found.entry.kind === 'file') {
    return form.file === 'its-line' ? { entries: [found.entry] } : { refusal: form.file };
  }
  const listed = yield* ask('list', { path: found.path });
  return listed.ok ? { entries: listed.value } : { refusal: folderRefusal(listed.code) };
}

/** The path of LIST or NLST without the options of `ls` that many clients put in front (common practice). */
export function withoutListOptions(argument: string | null): string | null {
  return argument === null ? null : argument.replace(/^(?:-[A-Za-z0-9]*(?: +|$))+/, '');
}
