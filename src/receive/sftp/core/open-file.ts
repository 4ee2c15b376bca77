import type { EpochMs } from '../../../base/index.ts';
import type { ArrivalEnd, FolderErrorCode } from '../../core/camera-folder.ts';
import { EarlyBytes, type EarlyLimits, type EarlyRoom } from './early-bytes.ts';
import { joined } from './packet-reader.ts';
import type { OpenFlags, WriteRequest } from './request.ts';
import { folderStatus, type OrderTrouble, ok, orderStatus, type Status } from './status.ts';

/** Something that makes a file not what the client meant; each later WRITE and the CLOSE say it again. */
export type Spoiled = OrderTrouble | FolderErrorCode;

/** A file that a client writes through a handle, from OPEN to CLOSE: where the next byte goes, and what came early. */
export class OpenFile {
  readonly handle: number;
  readonly path: string;
  readonly flags: OpenFlags;
  /** What OPEN said the file's size will be. */
  announcedBytes: number | null;
  /**
   * Of its arrival: `waiting` for the first byte, since a file that is there already is not touched before that says
   * where it goes on; `opening`; `open`; and `over` once it is being finished.
   */
  state: 'waiting' | 'opening' | 'open' | 'over' = 'waiting';
  nextBytes = 0;
  /** What the client says its file was last changed at; null while it says nothing. */
  modifiedMs: EpochMs | null = null;
  spoiled: Spoiled | null = null;
  /** Whether the client was told the handle. Who guesses it before that could close what is still being opened. */
  isNamed = false;
  /** How it ends without a CLOSE, once that is known; null till then. Whoever opens it looks here when it is open. */
  left: ArrivalEnd | null = null;
  readonly #early: EarlyBytes;

  constructor(
    handle: number,
    path: string,
    flags: OpenFlags,
    announcedBytes: number | null,
    limits: EarlyLimits,
    room: EarlyRoom,
  ) {
    this.handle = handle;
    this.path = path;
    this.flags = flags;
    this.announcedBytes = announcedBytes;
    this.#early = new EarlyBytes(limits, room);
  }

  get hasGap(): boolean {
    return !this.#early.isEmpty;
  }

  opened(offsetBytes: number): void {
    this.state = 'open';
    this.nextBytes = offsetBytes;
  }

  /** Takes the bytes of one WRITE; `write` gets those whose turn it is, in order. */
  take(request: WriteRequest, write: (pieces: readonly Uint8Array[]) => void): Status {
    const { pieces, sizeBytes } = request;
    if (sizeBytes === 0) return ok;
    // With SSH_FXF_APPEND the offset says nothing (section 6.3), as with POSIX O_APPEND.
    const offsetBytes = this.flags.appends ? this.nextBytes : request.offsetBytes;
    if (offsetBytes < this.nextBytes) return this.spoil('rewritten');
    if (offsetBytes > this.nextBytes) return this.#takeEarly(offsetBytes, pieces);
    if (this.#early.isEmpty) {
      this.nextBytes += sizeBytes;
      write(pieces);
      return ok;
    }
    return this.#fillGap(pieces, sizeBytes, write);
  }

  spoil(why: Spoiled): Status {
    this.spoiled ??= why;
    return spoiledStatus(this.spoiled);
  }

  /** Gives back what waited for bytes that never came. */
  forgetEarly(): void {
    this.#early.clear();
  }

  #takeEarly(offsetBytes: number, pieces: readonly Uint8Array[]): Status {
    // A copy: what the channel gave may hold much more than these bytes, and they may wait long.
    const put = this.#early.put(offsetBytes, joined(pieces).slice());
    return put === 'taken' ? ok : this.spoil(put);
  }

  #fillGap(
    pieces: readonly Uint8Array[],
    sizeBytes: number,
    write: (pieces: readonly Uint8Array[]) => void,
  ): Status {
    if (this.#early.overlaps(this.nextBytes, sizeBytes)) return this.spoil('overlapping');
    const turn = [...pieces];
    this.nextBytes += sizeBytes;
    for (let next = this.#early.takeAt(this.nextBytes); next !== null; ) {
      turn.push(next);
      this.nextBytes += next.length;
      next = this.#early.takeAt(this.nextBytes);
    }
    write(turn);
    return ok;
  }
}

export function spoiledStatus(why: Spoiled): Status {
  switch (why) {
    case 'rewritten':
    case 'too-far':
    case 'overlapping':
    case 'gap':
    case 'cut-back':
      return orderStatus(why);
    default:
      return folderStatus(why);
  }
}
