import { KiB, SetsideError } from '../../base/index.ts';
import { crc32c } from './kernels/crc32c.ts';
import { claimedVersion, isJournalRecord } from './record-shapes.ts';
import { recordVersion } from './record-version.ts';
import type { JournalRecord } from './records.ts';

/**
 * Longest line. The largest record is a version 1 job of 500 shots with names of 200 characters; a longer line is damage or a
 * programmer's mistake, and a reader must not gather bytes without end.
 */
export const lineBytesMax: number = 1024 * KiB;

const newline = 0x0a;

/**
 * One journal line: `CCCCCCCC LENGTH {json}\n`. CCCCCCCC is the CRC-32C of the JSON's bytes in hexadecimal, LENGTH
 * their count in decimal. JSON text holds no raw line feed, so that a reader finds the next line after damage.
 * Throws `bad-record` for anything that the reader would not take back.
 */
export function encodeLine(record: JournalRecord): Uint8Array {
  const json = JSON.stringify(record);
  const body = new TextEncoder().encode(json);
  if (!isJournalRecord(record) || body.length > lineBytesMax - headBytesMax) {
    throw new SetsideError('bad-record', `a journal record does not have its shape: ${json.slice(0, 300)}`);
  }
  const head = new TextEncoder().encode(`${hex(crc32c(body))} ${body.length} `);
  const line = new Uint8Array(head.length + body.length + 1);
  line.set(head);
  line.set(body, head.length);
  line[line.length - 1] = newline;
  return line;
}

/** What one line turned out to be. `newer`: written by a later version. */
export type LineReading =
  | { readonly kind: 'record'; readonly record: JournalRecord }
  | { readonly kind: 'damaged' }
  | { readonly kind: 'newer'; readonly version: number };

/** Reads one line without its line feed. */
export function parseLine(line: Uint8Array): LineReading {
  const damaged: LineReading = { kind: 'damaged' };
  const head = /^([0-9a-f]{8}) (\d{1,7}) /.exec(decodeText(line.subarray(0, headBytesMax)));
  if (head === null) return damaged;
  const [all, crc, length] = head;
  const body = line.subarray(all.length);
  if (body.length !== Number(length) || hex(crc32c(body)) !== crc) return damaged;
  const value = parseJson(decodeText(body));
  if (isJournalRecord(value)) return { kind: 'record', record: value };
  const version = claimedVersion(value);
  return version !== null && version > recordVersion ? { kind: 'newer', version } : damaged;
}

/** 8 digits, a blank, at most 7 digits, a blank. */
const headBytesMax = 17;

const hex = (crc: number): string => crc.toString(16).padStart(8, '0');

/** Not `fatal`: a head may be cut inside a character of the body, and the checksum decides about the rest. */
function decodeText(bytes: Uint8Array): string {
  return new TextDecoder('utf-8').decode(bytes);
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/**
 * Cuts a growing run of bytes into lines. A line longer than {@link lineBytesMax} is given out as damage and the
 * rest of it is passed over without being gathered.
 */
export class LineCutter {
  #rest: Uint8Array = new Uint8Array(0);
  #overlong = false;

  push(chunk: Uint8Array): LineReading[] {
    const readings: LineReading[] = [];
    let start = 0;
    for (let end = chunk.indexOf(newline); end >= 0; end = chunk.indexOf(newline, start)) {
      readings.push(this.#finishLine(chunk.subarray(start, end)));
      start = end + 1;
    }
    this.#gather(chunk.subarray(start));
    return readings;
  }

  /** Whether bytes are left that no line feed ended. */
  get torn(): boolean {
    return this.#rest.length > 0 || this.#overlong;
  }

  #finishLine(end: Uint8Array): LineReading {
    this.#gather(end);
    const reading: LineReading = this.#overlong ? { kind: 'damaged' } : parseLine(this.#rest);
    this.#rest = new Uint8Array(0);
    this.#overlong = false;
    return reading;
  }

  #gather(bytes: Uint8Array): void {
    if (this.#overlong || bytes.length === 0) return;
    if (this.#rest.length + bytes.length > lineBytesMax) {
      this.#rest = new Uint8Array(0);
      this.#overlong = true;
      return;
    }
    const joined = new Uint8Array(this.#rest.length + bytes.length);
    joined.set(this.#rest);
    joined.set(bytes, this.#rest.length);
    this.#rest = joined;
  }
}
