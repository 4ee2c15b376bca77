import { legibleName } from '../../base/index.ts';
import { crc32c } from './kernels/crc32c.ts';

/**
 * Longest name on disk, bytes of UTF-8. File systems allow 255; the rest is room for ` (1234)` and for what
 * `incoming/` puts before a name.
 */
export const safeNameBytesMax = 160;

/**
 * A camera's file or folder name as it can stand on Linux, macOS and Windows alike. A good name stays as it is; two
 * bad ones may become the same, so whoever creates the file still has to look.
 *
 * Rules of Windows, the strictest of the three: "Naming Files, Paths, and Namespaces" (Microsoft Learn): no
 * `< > : " / \ | ? *`, nothing below 32, no final blank or full stop, no device name with any extension.
 * Besides: no leading full stop (hidden elsewhere), no marks that turn the direction of writing (a name that reads
 * otherwise than it is), composed characters (NFC), so that macOS and Linux mean the same name; what was no UTF-8 on the
 * wire as Windows-1252.
 */
export function safeName(name: string): string {
  const plain = legibleName(name)
    .normalize('NFC')
    .replace(/\p{Surrogate}/gu, '_')
    .replace(/[<>:"/\\|?*\p{Cc}\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, '_')
    .replace(/[. ]+$/u, (end) => '_'.repeat(end.length))
    .replace(/^\./u, '_');
  const named = plain === '' ? '_' : plain;
  return shorten(deviceName.test(named) ? `_${named}` : named);
}

/** CON, NUL.txt, COM1 … (superscript 1 to 3 count as digits there). */
const deviceName = /^(?:con|prn|aux|nul|(?:com|lpt)[0-9\u00b9\u00b2\u00b3])(?:[. ]|$)/iu;

/** `X.DNG` numbered: `X (2).DNG`. */
export function numberedName(name: string, number: number): string {
  const { stem, extension } = splitName(name);
  return `${stem} (${number})${extension}`;
}

/** The extension with its full stop, empty where there is none; a leading full stop begins no extension. */
export function splitName(name: string): { readonly stem: string; readonly extension: string } {
  const stop = name.lastIndexOf('.');
  return stop <= 0
    ? { stem: name, extension: '' }
    : { stem: name.slice(0, stop), extension: name.slice(stop) };
}

/** One form for names that some file system takes for the same. */
export function foldName(name: string): string {
  return name.normalize('NFC').toLowerCase();
}

/** Cuts the stem and marks the cut with a checksum of the whole, so that long neighbours stay apart. */
function shorten(name: string): string {
  if (byteLength(name) <= safeNameBytesMax) return name;
  const { stem, extension } = splitName(name);
  const mark = `~${crc32c(new TextEncoder().encode(name)).toString(16).padStart(8, '0')}`;
  const end = byteLength(extension) <= 20 ? extension : '';
  const characters = [...(end === '' ? name : stem)];
  while (byteLength(characters.join('')) + mark.length + byteLength(end) > safeNameBytesMax) characters.pop();
  return `${characters.join('')}${mark}${end}`;
}

function byteLength(text: string): number {
  return new TextEncoder().encode(text).length;
}
