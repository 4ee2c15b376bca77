import type { Finding } from '../../../facts/index.ts';
import type { ArrivalEnd, FolderErrorCode } from '../../core/camera-folder.ts';
import type { Packet } from './packet-reader.ts';
import type { Question } from './questions.ts';

/** What the shell tells a session. */
export type SessionEvent =
  | { readonly kind: 'packet'; readonly packet: Packet }
  | { readonly kind: 'answer'; readonly ask: number; readonly answer: unknown }
  /** A file's bytes could not be written. */
  | { readonly kind: 'write-failed'; readonly handle: number; readonly code: FolderErrorCode }
  /** The same file came anew by another connection, and this one had been silent. */
  | { readonly kind: 'given-way'; readonly handle: number; readonly end: ArrivalEnd }
  /** The client is gone or sent off: files that it did not close are ended so. */
  | { readonly kind: 'ended'; readonly end: ArrivalEnd };

/** What a session wants done. */
export type Wish =
  | { readonly kind: 'send'; readonly bytes: Uint8Array }
  | { readonly kind: 'ask'; readonly ask: number; readonly question: Question }
  /** The next bytes of a file, in order. The pieces alias what came over the channel. */
  | { readonly kind: 'write'; readonly handle: number; readonly pieces: readonly Uint8Array[] }
  | { readonly kind: 'report'; readonly finding: Finding }
  /** The client does not speak SFTP. */
  | { readonly kind: 'hang-up' };
