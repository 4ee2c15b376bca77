import { nameOf, parentOf } from '../../../core/path.ts';
import type { Command, Turn } from '../command.ts';
import { destination } from '../destination.ts';
import { type Asking, ask } from '../questions.ts';
import { folderRefusal } from '../refusals.ts';
import { reply } from '../reply.ts';
import { restartPoint, type StoreTarget, store } from '../store.ts';

/**
 * RFC 959 section 4.1.3: stores under a name that is free, and says which. RFC 959 has no argument; most clients send
 * the name they would like (common practice, no source).
 */
export const stou: Command = {
  verb: 'STOU',
  needs: 'login',
  run: (turn, argument) => store(turn, 'STOU', freeTarget(turn, argument), 'start'),
};

function* freeTarget(turn: Turn, argument: string | null): Asking<StoreTarget> {
  // The bytes would be the rest of some file, kept as if they were a whole one.
  if (restartPoint(turn) !== null) return { refusal: reply(503, 'A new name begins at its first byte.') };
  const wished = destination(turn, argument === null || argument === '' ? 'UPLOAD' : argument);
  if ('refusal' in wished) return wished;
  const listed = yield* ask('list', { path: parentOf(wished.path) });
  if (!listed.ok) return { refusal: folderRefusal(listed.code) };
  const taken = new Set(listed.value.map(({ name }) => name));
  // The number can make the name too long, so the result is looked at once more.
  const free = destination(turn, freePath(wished.path, taken));
  // RFC 1123 section 4.1.2.9: the 150 has exactly this form.
  return 'refusal' in free ? free : { path: free.path, ready: reply(150, `FILE: ${free.path}`) };
}

/** `X.DNG`, `X (2).DNG`, `X (3).DNG` …: ends, because a folder holds only so many names. */
function freePath(path: string, taken: ReadonlySet<string>): string {
  const [, stem = '', extension = ''] = /^(.+?)(\.[^.]*)?$/s.exec(nameOf(path)) ?? [];
  let name = stem + extension;
  for (let number = 2; taken.has(name); number += 1) name = `${stem} (${number})${extension}`;
  return `${parentOf(path)}/${name}`;
}
