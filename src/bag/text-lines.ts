/** The lines of a tag file, whichever of LF, CR LF and CR ends them (RFC 8493, section 2), with their numbers from 1. */
export function textLines(text: string): readonly { readonly number: number; readonly line: string }[] {
  return text
    .split(/\r\n|\n|\r/)
    .map((line, index) => ({ number: index + 1, line }))
    .filter(({ line }) => line.trim() !== '');
}
