import { fileNameBytesMax } from './limits.ts';

/**
 * Names of devices, which Windows takes whatever ending follows them ("Naming Files, Paths, and Namespaces", Microsoft
 * Learn; the superscript digits are named there too).
 */
const deviceName = /^(?:con|prn|aux|nul|conin\$|conout\$|(?:com|lpt)[0-9¹²³])$/i;

/** Stands where a name has nothing left. */
const nameless = 'picture';

/**
 * A name that Windows, macOS and Linux take alike, without its ending: of the characters that one of them refuses
 * (`< > : " / \ | ? *` and controls on Windows, `/` and NUL elsewhere) each is a hyphen; characters that cannot be seen or turn the
 * direction of writing are left out; no dot or space at either end (Windows drops them at the end, a dot in front hides); Unicode form C (UAX 15).
 * `extension` has its dot. Never longer than {@link fileNameBytesMax} bytes with it.
 */
export function safeStem(text: string, extension: string, bytesMax: number = fileNameBytesMax): string {
  const plain = text
    .normalize('NFC')
    .replace(/[\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff\ufffe\uffff]|\p{Cs}/gu, '')
    .replace(/[<>:"/\\|?*]|\p{Cc}/gu, '-')
    .replace(/\s+/gu, ' ');
  const room = bytesMax - new TextEncoder().encode(extension).length;
  const stem = trimEnds(shortened(trimEnds(plain), room));
  if (stem === '') return nameless;
  // Up to the first dot: Windows takes `NUL.tar.gz` for the device as well.
  const [first = ''] = stem.split('.');
  return deviceName.test(first.trim()) ? trimEnds(shortened(`_${stem}`, room)) : stem;
}

function trimEnds(text: string): string {
  return text.replace(/^[. ]+|[. ]+$/g, '');
}

/** Whole characters up to so many bytes of UTF-8. */
function shortened(text: string, bytesMax: number): string {
  const encoder = new TextEncoder();
  let bytes = 0;
  let kept = '';
  for (const character of text) {
    bytes += encoder.encode(character).length;
    if (bytes > bytesMax) break;
    kept += character;
  }
  return kept;
}

/**
 * What two names have in common that one folder cannot hold side by side on some system: names that differ only in case
 * or in Unicode form (canonical caseless matching, The Unicode Standard 3.13, D145; folding by way of capitals, which joins at least
 * what the standard's folding joins; small letters first, since U+1E9E is a capital that has none).
 */
export function nameKey(name: string): string {
  return name.normalize('NFD').toLowerCase().toUpperCase().toLowerCase().normalize('NFC');
}
