import type { Look, LookUse, LookWithVersions } from '../contract/index.ts';
import type { Finding } from '../facts/index.ts';
import type { Look as LookDocument } from '../look/index.ts';
import type { Who } from './core/who.ts';

/** What the web door needs of the station about looks. Each change is durable when it settles. */
export interface LookCalls {
  /** By name: of each the newest version, or every version, the newest first. */
  looks(all: boolean): Promise<readonly Look[]>;
  /** Null where there is no such version. */
  look(id: string): Promise<LookWithVersions | null>;
  /**
   * Saves a document under its title: as a new version, or as the one that is there where it is the same. Rejects
   * `too-many-looks`.
   */
  saveLook(document: LookDocument, who: Who): Promise<{ readonly look: Look; readonly isNew: boolean }>;
  /** Lays a version aside, or puts it back; null where there is no such version. */
  layLookAside(id: string, aside: boolean, who: Who): Promise<Look | null>;
  /**
   * Makes a version the look of a job, of shots or of frames, as one act; gives how many had another before, null where
   * there is no such version. Rejects `no-job`, `no-shot`, `no-frame`, `job-finished`; then nothing is changed.
   */
  useLook(id: string, use: LookUse, who: Who): Promise<number | null>;
  /**
   * A frame under a look that is not saved, as JPEG; null where there is no such frame. Of the tries of one page the newest
   * wins: an earlier one rejects `try-overtaken`. Rejects `no-look` for a finished picture, `busy`, and with the signal's reason.
   */
  tryLook(frame: string, wish: TryWish, signal: AbortSignal): Promise<TryAnswer | null>;
}

export interface TryWish {
  readonly document: LookDocument;
  /** About so wide, pixels; undefined for half the original's size. */
  readonly width: number | undefined;
  /** Who tries: a newer try of the same takes the place of an earlier one. */
  readonly page: string;
}

export type TryAnswer =
  | { readonly kind: 'picture'; readonly jpeg: Uint8Array; readonly hash: string }
  | { readonly kind: 'none'; readonly finding: Finding };
