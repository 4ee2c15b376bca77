/** Longest text that leaves this room, in characters (Unicode code points): a long lens name has about 60. */
export const textCharactersMax = 120;

/**
 * A camera's text fit for a screen and a log, or undefined where nothing readable is left. Control characters, line
 * and paragraph separators become spaces; characters that turn the writing direction, hide or join are left out, since
 * they let one text pass for another (Unicode Technical Report 36, section 2.6); blanks are folded and trimmed.
 */
export function cleanText(text: string | undefined): string | undefined {
  if (text === undefined) return undefined;
  const readable = text
    .slice(0, 4 * textCharactersMax)
    .replace(/[\p{Cs}\p{Co}\p{Cn}\p{Cf}\ufffd]/gu, '')
    .replace(/[\p{Cc}\p{Z}]+/gu, ' ')
    .trim();
  const cut = [...readable].slice(0, textCharactersMax).join('').trim();
  return cut === '' ? undefined : cut;
}
