import { SetsideError } from '../../base/index.ts';
import { shotListBytesMax } from '../limits.ts';

export const textEncodings = ['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'] as const;
export type TextEncoding = (typeof textEncodings)[number];

export interface DecodedText {
  /** Line ends are LF, whatever they were; the byte order mark is gone. */
  readonly text: string;
  readonly encoding: TextEncoding;
  /** No mark and no valid UTF-8: what older spreadsheets of Western Europe write was assumed, and a person should look. */
  readonly guessed: boolean;
}

/**
 * The text of a file that does not say how it is written. A byte order mark decides (Unicode 15, section 23.8); without
 * one, valid UTF-8 is UTF-8 (RFC 3629: other text hardly ever is by chance), and the rest is taken as Windows-1252.
 * Throws `spreadsheet-file` for a workbook, `bad-text` for too many bytes, for UTF-16 that is none, and for bytes no text holds.
 */
export function decodeText(bytes: Uint8Array): DecodedText {
  if (bytes.length > shotListBytesMax) {
    throw new SetsideError('bad-text', `expected at most ${shotListBytesMax} bytes, got ${bytes.length}`);
  }
  if (workbooks.some((mark) => mark.every((byte, at) => bytes[at] === byte))) {
    throw new SetsideError('spreadsheet-file', 'these bytes are a workbook, not a table as text');
  }
  const { encoding, guessed } = encodingOf(bytes);
  const text = decodeAs(encoding, bytes);
  if (text === null || text.includes('\0')) {
    throw new SetsideError('bad-text', `these bytes are no text in ${encoding}`);
  }
  return { text: text.replace(/\r\n?/g, '\n'), encoding, guessed };
}

/** How workbooks begin: packed ones as a ZIP file does (APPNOTE 4.3.7), older ones as a compound file (MS-CFB 2.2). */
const workbooks = [
  [0x50, 0x4b, 0x03, 0x04],
  [0xd0, 0xcf, 0x11, 0xe0],
] as const;

function encodingOf(bytes: Uint8Array): Omit<DecodedText, 'text'> {
  const [first, second, third] = bytes;
  if (first === 0xff && second === 0xfe) return { encoding: 'utf-16le', guessed: false };
  if (first === 0xfe && second === 0xff) return { encoding: 'utf-16be', guessed: false };
  const marked = first === 0xef && second === 0xbb && third === 0xbf;
  if (marked || decodeAs('utf-8', bytes) !== null) return { encoding: 'utf-8', guessed: false };
  return { encoding: 'windows-1252', guessed: true };
}

/** Null where the bytes are none of that encoding. The decoder takes its own byte order mark away. */
function decodeAs(encoding: TextEncoding, bytes: Uint8Array): string | null {
  if (encoding === 'windows-1252') return windows1252ToText(bytes);
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

/**
 * Characters 0x80 to 0x9f of Windows-1252 (WHATWG Encoding Standard, index windows-1252); the others are those of Latin-1.
 * Not the platform's decoder: the one of Node 20 takes these as Latin-1, too.
 */
const upperRow = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

function windows1252ToText(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (const byte of bytes) {
    parts.push(byte >= 0x80 && byte < 0xa0 ? (upperRow[byte - 0x80] ?? '') : String.fromCharCode(byte));
  }
  return parts.join('');
}
