import {
  type Question,
  questions,
  type Tolerance,
  type ToleranceName,
  type Tolerances,
  toleranceNames,
} from '../../facts/index.ts';
import type { Shot } from '../job.ts';
import { marksWantedMax, nameCharactersMax, textCharactersMax, toleranceMax } from '../limits.ts';
import type { Column } from './columns.ts';

/** What a cell says of a shot, or null where it cannot be read. */
type CellReader = (cell: string) => Partial<Shot> | null;

/** What is in a cell is stated; an empty one says nothing, and is read by none of these. */
export const cellReaders: Readonly<Record<Exclude<Column, 'id' | 'name'>, CellReader>> = {
  description: (cell) => (cell.length <= textCharactersMax ? { description: cell } : null),
  camera: (cell) => label(cell, (camera) => ({ camera })),
  look: (cell) => label(cell, (look) => ({ look })),
  layout: (cell) => frame(cell, (layout) => ({ layout })),
  reference: (cell) => frame(cell, (reference) => ({ reference })),
  heroes: (cell) => count(cell, (heroes) => ({ heroes })),
  selects: (cell) => count(cell, (selects) => ({ selects })),
  agreement: (cell) => yesOrNo(cell, (agreement) => ({ agreement })),
  requires: (cell) => someQuestions(cell, (requires) => ({ requires })),
  mutes: (cell) => someQuestions(cell, (mutes) => ({ mutes })),
  tolerances: (cell) => {
    const tolerances = parseTolerances(cell);
    return tolerances === null ? null : { tolerances };
  },
};

/** The cells of a shot as {@link cellReaders} read them back. */
export const cellWriters: Readonly<Record<Column, (shot: Shot) => string>> = {
  id: ({ id }) => id,
  name: ({ name }) => name,
  description: ({ description }) => description,
  camera: ({ camera }) => camera ?? '',
  look: ({ look }) => look ?? '',
  layout: ({ layout }) => layout ?? '',
  reference: ({ reference }) => reference ?? '',
  heroes: ({ heroes }) => String(heroes),
  selects: ({ selects }) => String(selects),
  agreement: ({ agreement }) => (agreement ? 'yes' : 'no'),
  requires: ({ requires }) => writeQuestions(requires),
  mutes: ({ mutes }) => writeQuestions(mutes),
  tolerances: ({ tolerances }) => writeTolerances(tolerances),
};

function label(cell: string, into: (text: string) => Partial<Shot>): Partial<Shot> | null {
  const text = cell.trim();
  return text.length > nameCharactersMax ? null : into(text);
}

/** The id of a frame, which a name of a file or a remark is not. */
function frame(cell: string, into: (id: string) => Partial<Shot>): Partial<Shot> | null {
  const id = cell.trim();
  return /^[A-Za-z0-9_-]{1,64}$/.test(id) ? into(id) : null;
}

function count(cell: string, into: (value: number) => Partial<Shot>): Partial<Shot> | null {
  const text = cell.trim();
  return /^\d{1,2}$/.test(text) && Number(text) <= marksWantedMax ? into(Number(text)) : null;
}

function yesOrNo(cell: string, into: (value: boolean) => Partial<Shot>): Partial<Shot> | null {
  const text = cell.trim().toLowerCase();
  if (['no', 'n', 'false', '0', 'nein', 'non'].includes(text)) return into(false);
  return ['yes', 'y', 'true', '1', 'x', 'ja', 'oui', 'sí'].includes(text) ? into(true) : null;
}

/** Names of questions with blanks or commas between; `none` for none, since an empty cell says nothing. */
function someQuestions(
  cell: string,
  into: (value: readonly Question[]) => Partial<Shot>,
): Partial<Shot> | null {
  const words = wordsOf(cell).map((word) => word.toLowerCase());
  if (words.length === 1 && words[0] === 'none') return into([]);
  const named = questions.filter((question) => words.includes(question.toLowerCase()));
  return named.length === new Set(words).size ? into(named) : null;
}

function writeQuestions(named: readonly Question[]): string {
  return named.length === 0 ? 'none' : questions.filter((question) => named.includes(question)).join(' ');
}

/** `edgeWidthPx 2/4; lightEv 0.1/0.3`: name, good, bad. A decimal comma is understood. */
function parseTolerances(cell: string): Tolerances | null {
  const tolerances: Partial<Record<ToleranceName, Tolerance>> = {};
  for (const part of cell.split(';')) {
    if (part.trim() === '') continue;
    const match = /^\s*(\w+)\s+([\d.,e-]+)\s*\/\s*([\d.,e-]+)\s*$/i.exec(part);
    const name = toleranceNames.find((known) => known.toLowerCase() === match?.[1]?.toLowerCase());
    const [good, bad] = [match?.[2], match?.[3]].map((text) => Number((text ?? '').replace(',', '.') || NaN));
    if (name === undefined || good === undefined || bad === undefined) return null;
    if (!(good >= 0 && good <= bad && bad <= toleranceMax)) return null;
    tolerances[name] = { good, bad };
  }
  return tolerances;
}

function writeTolerances(tolerances: Tolerances): string {
  return toleranceNames
    .flatMap((name) => {
      const limits = tolerances[name];
      return limits === undefined ? [] : `${name} ${limits.good}/${limits.bad}`;
    })
    .join('; ');
}

function wordsOf(cell: string): string[] {
  return cell.split(/[\s,;]+/).filter((word) => word !== '');
}
