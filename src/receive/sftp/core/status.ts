import type { ArrivalOutcome, FolderErrorCode } from '../../core/camera-folder.ts';
import type { NameTrouble } from '../../core/path.ts';

/** How a request ended: a code for the client's program and words for the person before it. */
export interface Status {
  readonly kind: 'status';
  readonly code: number;
  readonly words: string;
  /** Why it was refused, for the camera's log; null where it was not, or is none of its business. */
  readonly why: string | null;
}

/** draft-ietf-secsh-filexfer-02 section 7. Version 3 has no more: what else may be wrong is a failure with words. */
const codes = { ok: 0, endOfFile: 1, noSuchFile: 2, denied: 3, failure: 4, badMessage: 5, unsupported: 8 };

const status = (code: number, words: string, why: string | null = null): Status => ({
  kind: 'status',
  code,
  words,
  why,
});

export const ok: Status = status(codes.ok, 'Done.');
export const endOfList: Status = status(codes.endOfFile, 'That was the list.');
export const badMessage: Status = status(codes.badMessage, 'That request cannot be read.');
export const unknownHandle: Status = status(codes.failure, 'There is no such handle.');
export const unknownRequest: Status = status(codes.unsupported, 'That is not known here.');
export const noReading: Status = status(codes.denied, 'Files are not handed back.', 'no-reading');
export const noLinks: Status = status(codes.unsupported, 'There are no links here.', 'no-links');
export const noTruncating: Status = status(
  codes.unsupported,
  'A file cannot be cut or stretched.',
  'no-truncating',
);
export const tooManyHandles: Status = status(codes.failure, 'Too many files are open.', 'too-many');

/** The status for each way a folder may refuse. Texts show nothing of this computer (RFC 2577 section 7). */
const folderStatuses: Readonly<Record<FolderErrorCode, Status>> = {
  'not-found': status(codes.noSuchFile, 'There is no such file or folder.', 'not-found'),
  'not-a-folder': status(codes.failure, 'That is a file, not a folder.', 'not-a-folder'),
  'not-a-file': status(codes.failure, 'That is a folder, not a file.', 'not-a-file'),
  'not-empty': status(codes.failure, 'That folder is not empty.', 'not-empty'),
  exists: status(codes.failure, 'That name is taken.', 'exists'),
  'offset-beyond-end': status(codes.failure, 'Fewer bytes are here than that.', 'offset-beyond-end'),
  'disk-full': status(codes.failure, 'The disk is full. Send it again when there is room.', 'disk-full'),
  'disk-failed': status(codes.failure, 'The disk failed. Send it again.', 'disk-failed'),
  busy: status(codes.failure, 'That file is still arriving from another connection.', 'busy'),
  'too-many': status(codes.failure, 'Too many files are arriving at once. Try again.', 'too-many'),
};

/** A file is opened in a folder that is not there. */
export const noFolder: Status = status(
  codes.noSuchFile,
  'There is no such folder. Let the camera make it, or enter / as its folder.',
  'no-folder',
);

export function folderStatus(code: FolderErrorCode): Status {
  return folderStatuses[code];
}

const nameStatuses: Readonly<Record<NameTrouble, Status>> = {
  'control-character': status(codes.failure, 'Names cannot hold control characters.', 'control-character'),
  'name-too-long': status(codes.failure, 'That name is too long.', 'name-too-long'),
  'too-deep': status(codes.failure, 'That path is too deep.', 'too-deep'),
};

export function nameStatus(why: NameTrouble): Status {
  return nameStatuses[why];
}

/** Why bytes could not be taken in their order: the file is then not what the client meant. */
export type OrderTrouble = 'rewritten' | 'too-far' | 'overlapping' | 'gap' | 'cut-back';

const orderStatuses: Readonly<Record<OrderTrouble, Status>> = {
  rewritten: status(codes.failure, 'Bytes that have come are not changed. Send the file anew.', 'rewritten'),
  'too-far': status(codes.failure, 'Bytes came too far ahead. Send the file from start to end.', 'too-far'),
  overlapping: status(codes.failure, 'Bytes came twice. Send the file anew.', 'rewritten'),
  'cut-back': status(codes.failure, 'Bytes that have come are not taken back.', 'cut-back'),
  gap: status(codes.failure, 'Bytes are missing in the middle. Send the file again.', 'gap'),
};

export function orderStatus(trouble: OrderTrouble): Status {
  return orderStatuses[trouble];
}

/** The status of CLOSE. OK only for what is durable. */
export function outcomeStatus(outcome: ArrivalOutcome): Status {
  switch (outcome.kind) {
    case 'kept':
      return status(codes.ok, `Kept, ${outcome.sizeBytes} bytes.`);
    case 'kept-damaged':
      return status(codes.ok, `Kept, ${outcome.sizeBytes} bytes, though the file is cut short.`);
    case 'broken-off':
      return status(
        codes.failure,
        `The file is cut short after ${outcome.sizeBytes} bytes. Resume or send it again.`,
      );
    case 'failed':
      return folderStatus(outcome.code);
  }
}
