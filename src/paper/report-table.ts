import { black, hair, type Paper, soft } from './document.ts';

export interface Column {
  readonly title: string;
  /** From the left of the table. */
  readonly x: number;
  readonly width: number;
}

const sizePt = 8.5;
export const rowHighPt = 11.5;

/** A title with a line above it; gives where what it heads begins. */
export function headed(paper: Paper, title: string, x: number, y: number, width: number): number {
  paper.rule(y, 0.8, black, width, x);
  return y + 2.5 + paper.line(title, { x, y: y + 2.5 }, { size: 9.5, weight: 'medium' }) + 1;
}

/** Rows below their titles, one line each: what is too long is set smaller, down to two thirds, then cut with a sign. Gives where it ends. */
export function table(
  paper: Paper,
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  x: number,
  top: number,
): number {
  let y = top;
  for (const column of columns) paper.line(column.title, { x: x + column.x, y }, { size: 7.5, ink: soft });
  y += 10;
  const last = columns.at(-1);
  const width = last === undefined ? 0 : last.x + last.width;
  for (const row of rows) {
    paper.rule(y, 0.3, hair, width, x);
    for (const [index, column] of columns.entries()) {
      const { text, size } = fitted(paper, row[index] ?? '', column.width);
      paper.line(text, { x: x + column.x, y: y + 1 + (sizePt - size) * 0.8 }, { size });
    }
    y += rowHighPt;
  }
  return y + 2;
}

function fitted(
  paper: Paper,
  text: string,
  roomPt: number,
): { readonly text: string; readonly size: number } {
  const wide = paper.widthOf(text, sizePt, 'regular');
  if (wide <= roomPt) return { text, size: sizePt };
  const size = (sizePt * 2) / 3;
  if (wide * (2 / 3) <= roomPt) return { text, size: (sizePt * roomPt) / wide };
  const letters = [...text];
  while (letters.length > 1 && paper.widthOf(`${letters.join('')}…`, size, 'regular') > roomPt) letters.pop();
  return { text: `${letters.join('')}…`, size };
}
