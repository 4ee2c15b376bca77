import type { FolderEntry } from '../../core/camera-folder.ts';
import type { FolderAnswer } from '../../core/folder-questions.ts';
import { resolvePath } from '../../core/path.ts';
import type { Turn } from './command.ts';
import { type Asking, ask } from './questions.ts';
import { folderRefusal, nameRefusal } from './refusals.ts';
import type { Reply } from './reply.ts';

/** A path to work on, or the reply that refuses it. */
export type Destination = { readonly path: string } | { readonly refusal: Reply };

/** The path an argument means; a missing or empty argument is refused. */
export function destination(turn: Turn, argument: string | null): Destination {
  if (argument === null || argument === '') return { refusal: nameRefusal('no-name') };
  const resolved = resolvePath(turn.state.cwd, argument, turn.limits);
  return resolved.kind === 'path' ? { path: resolved.path } : { refusal: nameRefusal(resolved.why) };
}

/** As {@link destination}, where no argument means the current folder. */
export function destinationOrHere(turn: Turn, argument: string | null): Destination {
  return destination(turn, argument === null || argument === '' ? '.' : argument);
}

/** What lies at the path an argument means, or the reply that says why nothing can. */
export function* existing(
  where: Destination,
): Asking<{ readonly path: string; readonly entry: FolderEntry } | { readonly refusal: Reply }> {
  if ('refusal' in where) return where;
  const found = yield* ask('stat', { path: where.path });
  if (!found.ok) return { refusal: folderRefusal(found.code) };
  if (found.value === null) return { refusal: folderRefusal('not-found') };
  return { path: where.path, entry: found.value };
}

/** The good reply, or the one that says why the folder refused. */
export function replyFor(answer: FolderAnswer<unknown>, good: Reply): Reply {
  return answer.ok ? good : folderRefusal(answer.code);
}
