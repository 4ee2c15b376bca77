import type { Finding } from '../../facts/index.ts';
import type { Shot } from '../job.ts';
import {
  badLinesMax,
  columnsMax,
  fieldCharactersMax,
  nameCharactersMax,
  shotListLinesMax,
} from '../limits.ts';
import { cellReaders } from './cells.ts';
import { type Column, columns, type FoundColumns, findColumns } from './columns.ts';
import { type Row, unguarded } from './csv.ts';

/** A shot as one line tells it; fields without a column, and those whose cell is empty, are left out. */
export interface ListedShot {
  /** Line of the file, 1 the first; of a JSON list the place in it. */
  readonly line: number;
  readonly id: string | null;
  readonly name: string;
  readonly says: Partial<Omit<Shot, 'id' | 'name' | 'baselines'>>;
}

export interface BadLine {
  readonly line: number;
  readonly finding: Finding;
}

export interface ShotListReading {
  readonly shots: readonly ListedShot[];
  readonly bad: readonly BadLine[];
  /** Bad lines in all, those beyond {@link badLinesMax} too. */
  readonly badLines: number;
  readonly columns: readonly Column[];
  readonly unknownColumns: readonly string[];
  /** What is to be said of the whole file: no header, or lines that were not read. */
  readonly findings: readonly Finding[];
}

/** What the rows of a spreadsheet say, its first row being the header. Never throws: a line that is wrong is named. */
export function readShotList(rows: readonly Row[]): ShotListReading {
  const [header, ...lines] = rows;
  const found = findColumns(
    header === undefined || 'fault' in header ? [] : header.cells.slice(0, columnsMax).map(unguarded),
  );
  const known = columns.filter((column) => found.places.has(column));
  const about = { columns: known, unknownColumns: found.unknown };
  if (!found.places.has('name')) {
    const code = header === undefined ? 'shot-list.empty' : 'shot-list.no-name-column';
    const finding: Finding = { code, args: {} };
    return { shots: [], bad: [], badLines: 0, ...about, findings: [finding] };
  }
  const shots: ListedShot[] = [];
  const bad: BadLine[] = [];
  const ids = new Set<string>();
  for (const row of lines.slice(0, shotListLinesMax)) {
    const read = readLine(row, found, ids);
    if (read === null) continue;
    if ('finding' in read) {
      bad.push(read);
      continue;
    }
    shots.push(read);
    if (read.id !== null) ids.add(read.id);
  }
  const unread = Math.max(0, lines.length - shotListLinesMax);
  const findings: Finding[] =
    unread === 0
      ? []
      : [{ code: 'shot-list.lines-not-read', args: { count: unread, max: shotListLinesMax } }];
  // Whoever meant one of ours by another name has to know what ours are called.
  const unused = columns.filter((column) => !found.places.has(column));
  if (found.unknown.length > 0 && unused.length > 0)
    findings.push({ code: 'shot-list.columns-there-are', args: { names: unused.join(', ') } });
  return { shots, bad: bad.slice(0, badLinesMax), badLines: bad.length, ...about, findings };
}

/** Null for a line that says nothing, as spreadsheets put below their tables. */
function readLine(row: Row, found: FoundColumns, ids: ReadonlySet<string>): ListedShot | BadLine | null {
  const { line } = row;
  const bad = (code: string, args: Finding['args'] = {}): BadLine => ({
    line,
    finding: { code: `shot-list.${code}`, args: { line, ...args } },
  });
  if ('fault' in row) return bad(`line-${row.fault}`);
  if (row.cells.every((cell) => cell.trim() === '')) return null;
  if (row.cells.length > columnsMax) return bad('too-many-columns', { max: columnsMax });
  const long = row.cells.findIndex((cell) => cell.length > fieldCharactersMax);
  if (long >= 0) return bad('field-too-long', { column: long + 1, max: fieldCharactersMax });
  const cellOf = (column: Column): string | null => {
    const place = found.places.get(column);
    return place === undefined ? null : unguarded(row.cells[place] ?? '');
  };
  const name = (cellOf('name') ?? '').trim();
  if (name === '') return bad('no-name');
  if (name.length > nameCharactersMax) return bad('name-too-long', { max: nameCharactersMax });
  const id = (cellOf('id') ?? '').trim();
  if (id !== '' && !/^[A-Za-z0-9_-]{1,64}$/.test(id)) return bad('bad-id', { id: id.slice(0, 64) });
  if (ids.has(id)) return bad('id-twice', { id });
  let says: ListedShot['says'] = {};
  for (const column of columns) {
    if (column === 'id' || column === 'name') continue;
    const cell = cellOf(column);
    // Nobody means to wipe what stands there by leaving a cell empty.
    if (cell === null || cell.trim() === '') continue;
    const read = cellReaders[column](cell);
    if (read === null) return bad('bad-cell', { column, cell: cell.slice(0, 60) });
    says = { ...says, ...read };
  }
  return { line, id: id === '' ? null : id, name, says };
}
