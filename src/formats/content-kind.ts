import { parseTiffHeader } from './tiff-header.ts';

/**
 * What the content is, whatever the name says. `iso-bmff-raw` and `raf` are known by their signature only; `empty` has no byte (yet), `text` reads as UTF-8 without control characters.
 */
export type ContentKind =
  | 'dng'
  | 'tiff-raw'
  | 'tiff'
  | 'jpeg'
  | 'iso-bmff-raw'
  | 'raf'
  | 'png'
  | 'webp'
  | 'text'
  | 'unknown'
  | 'empty';

/** Bytes from the start of a file that {@link kindOf} looks at. */
export const signatureBytes = 512;

/** With this many bytes every kind but `text` is decided. */
export const decidedBytes = 16;

/** Bytes by which a kind is known, and where they start; `?` stands for any byte. */
interface Signature {
  readonly kind: ContentKind;
  readonly at: number;
  readonly bytes: string;
}

const signatures: readonly Signature[] = [
  { kind: 'jpeg', at: 0, bytes: '\xff\xd8\xff' }, // T.81 B.1.1.3: SOI, then another marker
  { kind: 'png', at: 0, bytes: '\x89PNG\r\n\x1a\n' }, // PNG third edition (W3C 2025) 5.2
  { kind: 'webp', at: 0, bytes: 'RIFF????WEBP' }, // RFC 9649 section 2.4
  { kind: 'raf', at: 0, bytes: 'FUJIFILMCCD-RAW ' }, // common practice, no source
  { kind: 'iso-bmff-raw', at: 4, bytes: 'ftypcrx ' }, // ISO/IEC 14496-12 4.3; the brand is common practice, no source
];

/** The kind by the first bytes of a file: {@link signatureBytes} of them, or all where it is shorter. */
export function kindOf(head: Uint8Array): ContentKind {
  if (head.length === 0) return 'empty';
  const known = signatures.find((signature) => matches(head, signature));
  if (known !== undefined) return known.kind;
  if (parseTiffHeader(head) !== null) return 'tiff';
  return isText(head) ? 'text' : 'unknown';
}

function matches(head: Uint8Array, { at, bytes }: Signature): boolean {
  if (head.length < at + bytes.length) return false;
  for (let i = 0; i < bytes.length; i++) {
    if (bytes[i] !== '?' && head[at + i] !== bytes.charCodeAt(i)) return false;
  }
  return true;
}

/** Valid UTF-8 (the end may cut a character) without control characters other than tab and line ends. */
function isText(head: Uint8Array): boolean {
  // First, since it is next to nothing beside an exception, and decides for nearly all that is no text.
  if (!head.every(isOfText)) return false;
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: true });
  } catch {
    return false;
  }
  return true;
}

function isOfText(byte: number): boolean {
  return byte >= 0x20 ? byte !== 0x7f : byte === 0x09 || byte === 0x0a || byte === 0x0c || byte === 0x0d;
}
