import { isXmpName } from '../base/index.ts';

/**
 * Names after DCF 2.0 (CIPA DC-009-2010): four free characters (digits, capitals, underscore), then the file number
 * 0001 to 9999, then an extension. The standard itself could not be had; the rules are from manuals that print them.
 */
const dcfFileName = /^[0-9A-Z_]{4}(\d{4})\.[0-9A-Z]{3}$/;
const dcfDirectoryName = /^([1-9]\d\d)[0-9A-Z_]{5}$/;

/**
 * What cameras and transfers make of such names: small letters, extensions of two to four characters, and the mark of
 * a second file of the same name behind the number: ` (2)`, `(2)`, `-2` (common practice, no source).
 */
const tolerantFileName = /^[0-9a-z_]{4}(\d{4})(?: ?\(\d{1,2}\)|-\d{1,2})?\.[0-9a-z]{2,4}$/i;

/** Whether a file is named exactly as DCF asks. */
export function isDcfFileName(name: string): boolean {
  return numberIn(dcfFileName.exec(name)) !== null;
}

/** Whether a folder is named exactly as DCF asks: 100 to 999, then five free characters. */
export function isDcfDirectoryName(name: string): boolean {
  return dcfDirectoryName.test(name);
}

/**
 * The counter of a camera's file name, 1 to 9999, or null where the name holds none for sure. `name` is the last part
 * of a path. A wrong counter would report gaps that are none, so anything unclear is null, and so is a sidecar: the number in its name is
 * a picture's.
 */
export function counterOf(name: string): number | null {
  return isXmpName(name) ? null : numberIn(tolerantFileName.exec(name));
}

function numberIn(match: RegExpExecArray | null): number | null {
  const counter = Number(match?.[1] ?? 0);
  return counter > 0 ? counter : null;
}
