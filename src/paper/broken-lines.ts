/**
 * A text as lines that fit: broken at blanks, and inside a word only where that alone is too wide for a line. At least one
 * letter stands in each.
 */
export function brokenLines(text: string, fits: (line: string) => boolean): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((each) => each !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const letter of word) {
      if (line !== '' && !fits(line + letter)) {
        lines.push(line);
        line = '';
      }
      line += letter;
    }
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines;
}
