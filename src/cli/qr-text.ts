import { codeModules, quietModules } from '../slate/index.ts';

/**
 * A text as a QR code for a terminal, two modules to a character, black on white by its own colours (ECMA-48 SGR), so
 * that it is read whatever the terminal's are.
 */
export function qrText(text: string): string {
  const { size, dark } = codeModules(text);
  const isDark = (row: number, column: number): boolean =>
    row >= 0 && row < size && column >= 0 && column < size && dark[row * size + column] === 1;
  const lines: string[] = [];
  for (let row = -quietModules; row < size + quietModules; row += 2) {
    let line = '';
    for (let column = -quietModules; column < size + quietModules; column += 1) {
      line += blocks[`${isDark(row, column)} ${isDark(row + 1, column)}`];
    }
    lines.push(`\x1b[30;107m${line}\x1b[0m`);
  }
  return lines.join('\n');
}

/** By whether the upper and the lower module are dark. */
const blocks: Readonly<Record<`${boolean} ${boolean}`, string>> = {
  'false false': ' ',
  'true false': '▀',
  'false true': '▄',
  'true true': '█',
};
