import type { FolderEntry, OpenHow } from '../../core/camera-folder.ts';
import { renamedFinding, takenOutFinding } from '../../core/change-findings.ts';
import type { FolderAnswer } from '../../core/folder-questions.ts';
import { nameOf, parentOf, resolvePath } from '../../core/path.ts';
import { finish } from './finish.ts';
import { OpenFile } from './open-file.ts';
import { type Asking, ask } from './questions.ts';
import type { PathRequest } from './request.ts';
import type { Response } from './response.ts';
import {
  folderStatus,
  nameStatus,
  noFolder,
  noLinks,
  noReading,
  noTruncating,
  ok,
  type Status,
  tooManyHandles,
} from './status.ts';
import type { Turn } from './turn.ts';

/** What names a path: each asks the camera's folder, which is a view, and none touches a byte on the disk. */
export function* answerPath(turn: Turn, request: PathRequest): Asking<Response> {
  if (request.type === 'link') return noLinks;
  const where = resolvePath('/', request.path, turn.limits);
  if (where.kind === 'refused') return nameStatus(where.why);
  const { path } = where;
  switch (request.type) {
    case 'real-path':
      return { kind: 'real-path', path };
    case 'stat':
      return yield* stat(path);
    case 'list':
      return yield* openListing(turn, path);
    case 'open':
      return yield* openFile(turn, path, request);
    case 'make-folder':
      return statusOf(yield* ask('make-folder', { path }));
    case 'remove-folder':
      return statusOf(yield* ask('remove-folder', { path }));
    case 'remove':
      return statusOf(yield* takeOut(turn, path));
    case 'set-stat':
      return yield* setStat(path, request);
    case 'rename':
      return yield* rename(turn, path, request);
  }
}

function* stat(path: string): Asking<Response> {
  const found = yield* existing(path);
  return 'entry' in found ? { kind: 'attributes', entry: found.entry } : found.refusal;
}

type Found = { readonly entry: FolderEntry } | { readonly refusal: Status };

function* existing(path: string): Asking<Found> {
  const there = yield* ask('stat', { path });
  if (!there.ok) return { refusal: folderStatus(there.code) };
  return there.value === null ? { refusal: folderStatus('not-found') } : { entry: there.value };
}

function* openListing(turn: Turn, path: string): Asking<Response> {
  if (turn.handlesLeft() <= 0) return tooManyHandles;
  const listed = yield* ask('list', { path });
  if (!listed.ok) return folderStatus(listed.code);
  return { kind: 'handle', handle: turn.addListing(listed.value) };
}

/**
 * OPEN. What is new or to be truncated begins at once; a file that is there waits for its first byte, whose offset says
 * whether it goes on (a resumed upload) or begins anew, so that a client that opens and closes it costs it nothing.
 */
function* openFile(
  turn: Turn,
  path: string,
  request: Extract<PathRequest, { type: 'open' }>,
): Asking<Response> {
  const { flags, attributes } = request;
  if (!flags.writes) return noReading;
  if (turn.handlesLeft() <= 0) return tooManyHandles;
  const there = yield* ask('stat', { path });
  if (!there.ok) return folderStatus(there.code);
  const refusal = yield* refusedOpen(path, there.value, request);
  if (refusal !== null) return refusal;
  // The client left meanwhile: nobody would close what is opened now, and the session would never be over.
  if (turn.ended() !== null) return folderStatus('busy');
  const file = turn.addFile(
    (handle) => new OpenFile(handle, path, flags, attributes.sizeBytes, turn.limits, turn.earlyRoom),
  );
  if (there.value === null || flags.truncates) {
    const begun = yield* begin(turn, file, 'start');
    if (begun !== null) {
      turn.remove(file.handle);
      return begun;
    }
  }
  file.isNamed = true;
  return { kind: 'handle', handle: file.handle };
}

function* refusedOpen(
  path: string,
  there: FolderEntry | null,
  { flags }: Extract<PathRequest, { type: 'open' }>,
): Asking<Status | null> {
  if (there?.kind === 'folder') return folderStatus('not-a-file');
  if (there !== null) return flags.creates && flags.exclusive ? folderStatus('exists') : null;
  if (!flags.creates) return folderStatus('not-found');
  const parent = yield* ask('stat', { path: parentOf(path) });
  if (!parent.ok) return folderStatus(parent.code);
  return parent.value?.kind === 'folder' ? null : noFolder;
}

/** Opens the arrival of a file; the refusal, where it is refused. */
export function* begin(turn: Turn, file: OpenFile, at: OpenHow['at']): Asking<Status | null> {
  const { handle, path, announcedBytes } = file;
  file.state = 'opening';
  const opened = yield* ask('open', { handle, path, how: { via: 'sftp', at, announcedBytes } });
  if (!opened.ok) {
    file.state = 'over';
    return file.spoil(opened.code);
  }
  const { offsetBytes } = opened.value;
  file.opened(offsetBytes);
  turn.report({
    code: offsetBytes > 0 ? 'line.upload-resumed' : 'line.upload-started',
    args: { name: nameOf(path), offsetBytes },
  });
  if (file.left === null) return null;
  // The client left, or the file had to give way to another sending of it, while it was being opened.
  yield* finish(turn, file, file.left);
  return folderStatus('busy');
}

function* setStat(path: string, { attributes }: Extract<PathRequest, { type: 'set-stat' }>): Asking<Status> {
  const found = yield* existing(path);
  if ('refusal' in found) return found.refusal;
  const { sizeBytes, modifiedMs } = attributes;
  if (sizeBytes !== null && sizeBytes !== found.entry.sizeBytes) return noTruncating;
  // The time of a folder is when it last changed; rsync-like clients set it all the same.
  if (modifiedMs === null || found.entry.kind === 'folder') return ok;
  return statusOf(yield* ask('set-modified', { path, modifiedMs }));
}

/** RENAME refuses a name that is taken (section 6.5); `posix-rename@openssh.com` puts the file in its place. */
function* rename(
  turn: Turn,
  from: string,
  request: Extract<PathRequest, { type: 'rename' }>,
): Asking<Status> {
  const where = resolvePath('/', request.to, turn.limits);
  if (where.kind === 'refused') return nameStatus(where.why);
  const to = where.path;
  const renamed = yield* renameTo(turn, from, to);
  if (renamed.ok || renamed.code !== 'exists' || !request.replaces) return statusOf(renamed);
  const hidden = yield* takeOut(turn, to);
  return hidden.ok ? statusOf(yield* renameTo(turn, from, to)) : folderStatus('exists');
}

function* takeOut(turn: Turn, path: string): Asking<FolderAnswer<null>> {
  const hidden = yield* ask('hide', { path });
  if (hidden.ok) turn.report(takenOutFinding(path));
  return hidden;
}

function* renameTo(turn: Turn, from: string, to: string): Asking<FolderAnswer<null>> {
  const renamed = yield* ask('rename', { from, to });
  const news = renamed.ok ? renamedFinding(from, to) : null;
  if (news !== null) turn.report(news);
  return renamed;
}

export function statusOf(answer: FolderAnswer<unknown>): Status {
  return answer.ok ? ok : folderStatus(answer.code);
}
