import type { ByteRange, ByteSource } from './byte-source.ts';
import type { Issue, IssueCode } from './issue.ts';
import type { Limits } from './limits.ts';
import { wholeBlocks } from './sparse-source.ts';

/**
 * Reads a source on behalf of the parsers of one inspection and keeps the account: what is wanted, how far the
 * structure proves the file must reach, what was stumbled over, how much was read.
 */
export class BoundedReader {
  readonly source: ByteSource;
  readonly limits: Limits;
  readonly issues: Issue[] = [];
  readonly #wanted = new Map<number, ByteRange>();
  #readBytes = 0;
  #provenEnd = 0;
  #awaitedEnd: number | null = null;
  #structureMissing = false;
  #doubted = false;

  constructor(source: ByteSource, limits: Limits) {
    this.source = source;
    this.limits = limits;
  }

  /** Ranges that have arrived but are not loaded, in whole blocks. */
  get wanted(): readonly ByteRange[] {
    return [...this.#wanted.values()];
  }

  /** The greatest end of anything the structure points to, bytes. */
  get provenEnd(): number {
    return this.#provenEnd;
  }

  /** The nearest end of a piece of structure that has not arrived; null where none is missing. */
  get awaitedEnd(): number | null {
    return this.#awaitedEnd;
  }

  /** True where a piece of structure has not arrived: what it would point to may lie behind `provenEnd`. */
  get structureMissing(): boolean {
    return this.#structureMissing;
  }

  /** True where something could not be followed, so that nobody may claim the file is whole. */
  get doubted(): boolean {
    return this.#doubted;
  }

  /** Structure: the file must hold these bytes. Null where they are not at hand, or too many were read already. */
  take(offset: number, length: number): Uint8Array | null {
    this.expectEnd(offset + length);
    if (offset + length > this.source.sizeBytes) this.#structureMissing = true;
    return this.peek(offset, length);
  }

  /** Bytes that help but prove nothing about the file's length. */
  peek(offset: number, length: number): Uint8Array | null {
    if (this.#readBytes + length > this.limits.structureBytesMax) {
      this.doubt('structure-too-large', offset);
      return null;
    }
    const bytes = this.source.read(offset, length);
    if (bytes === null) this.#miss(offset, length);
    else this.#readBytes += length;
    return bytes;
  }

  /** The structure points to bytes that end here. */
  expectEnd(end: number): void {
    this.#provenEnd = Math.max(this.#provenEnd, end);
  }

  /** A range to load that no parser read yet, e.g. the next step of a walk. */
  want(range: ByteRange): void {
    const blocks = wholeBlocks(range, this.source.sizeBytes);
    if (this.#wanted.size < this.limits.wantedMax && blocks.length > 0) {
      const known = this.#wanted.get(blocks.offset);
      if (known === undefined || known.length < blocks.length) this.#wanted.set(blocks.offset, blocks);
    }
  }

  /** Notes an issue that leaves the rest readable. */
  warn(code: IssueCode, offset: number): void {
    this.#note({ code, offset, severity: 'warning' });
  }

  /** Notes an issue behind which something may lie unread. */
  doubt(code: IssueCode, offset: number): void {
    this.#doubted = true;
    this.#note({ code, offset, severity: 'error' });
  }

  #miss(offset: number, length: number): void {
    const end = offset + length;
    if (end <= this.source.sizeBytes) this.want({ offset, length });
    else this.#awaitedEnd = Math.min(this.#awaitedEnd ?? end, end);
  }

  #note(issue: Issue): void {
    if (this.issues.length < this.limits.issuesMax) this.issues.push(issue);
  }
}
