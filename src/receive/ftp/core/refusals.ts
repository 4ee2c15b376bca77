import type { FolderErrorCode } from '../../core/camera-folder.ts';
import type { NameTrouble } from '../../core/path.ts';
import { type Reply, reply } from './reply.ts';

/**
 * The reply for each way a folder may refuse, RFC 959 section 5.4 and RFC 1123 section 4.1.3.4 (554). Texts say no
 * more than the client's own words did: no path of this computer, no message of the system (RFC 2577 section 7).
 * 4xx asks the client to try again by itself, 5xx not to.
 */
const folderReplies: Readonly<Record<FolderErrorCode, Reply>> = {
  'not-found': reply(550, 'There is no such file or folder.'),
  'not-a-folder': reply(550, 'That is a file, not a folder.'),
  'not-a-file': reply(550, 'That is a folder, not a file.'),
  'not-empty': reply(550, 'That folder is not empty.'),
  exists: reply(550, 'That name is taken.'),
  'offset-beyond-end': reply(554, 'Fewer bytes are here than the restart point says.'),
  'disk-full': reply(452, 'The disk is full. Send it again when there is room.'),
  'disk-failed': reply(451, 'The disk failed. Send it again.'),
  busy: reply(450, 'That file is still arriving from another connection.'),
  'too-many': reply(450, 'Too many files are arriving at once. Send it again in a moment.'),
};

/** A file is sent into a folder that is not there. The one who set the camera up may read this on it. */
export const noFolder: Reply = {
  ...reply(550, 'There is no such folder. Let the camera make it, or enter / as its folder.'),
  why: 'no-folder',
};

export function folderRefusal(code: FolderErrorCode): Reply {
  return { ...folderReplies[code], why: code };
}

const nameReplies: Readonly<Record<NameTrouble | 'no-name', Reply>> = {
  'no-name': reply(501, 'A name is missing.'),
  'control-character': reply(553, 'Names cannot hold control characters.'),
  'name-too-long': reply(553, 'That name is too long.'),
  'too-deep': reply(553, 'That path is too deep.'),
};

export function nameRefusal(why: NameTrouble | 'no-name'): Reply {
  return { ...nameReplies[why], why };
}
