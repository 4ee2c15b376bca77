import type { Finding } from '../../../facts/index.ts';
import type { ArrivalEnd, FolderEntry } from '../../core/camera-folder.ts';
import type { EarlyRoom } from './early-bytes.ts';
import type { SftpLimits } from './limits.ts';
import type { OpenFile } from './open-file.ts';

/** A folder's entries on their way to the client; as they were when it was opened. */
export interface OpenListing {
  readonly kind: 'listing';
  readonly entries: readonly FolderEntry[];
  sent: number;
}

/** What a request may do with its session, beside asking. */
export interface Turn {
  readonly limits: SftpLimits;
  readonly earlyRoom: EarlyRoom;
  handlesLeft(): number;
  /** How the session ended; null while it lasts. */
  ended(): ArrivalEnd | null;
  addFile(make: (handle: number) => OpenFile): OpenFile;
  addListing(entries: readonly FolderEntry[]): number;
  remove(handle: number): void;
  /** Hands on the next bytes of a file. */
  write(file: OpenFile, pieces: readonly Uint8Array[]): void;
  report(finding: Finding): void;
}
