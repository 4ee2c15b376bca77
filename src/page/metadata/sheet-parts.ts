import type { Job } from '../../contract/index.ts';
import { type MetadataSheet, readMetadataSheetText } from '../../deliver/index.ts';
import { sentence } from '../../words/index.ts';

/** Where in a sheet a text stands, such as `['all', 'contact', 'email']`. */
export type SheetPath = readonly [string, ...string[]];

type Whose = Pick<Job, 'code' | 'client' | 'title' | 'metadata'>;

/** The sheet of a job, an empty one where nobody said anything; else why it cannot be read. */
export function sheetOfJob({ metadata, client, title, code }: Whose): MetadataSheet | string {
  if (metadata === '') {
    const whose = [client, title, code].find((each) => each.trim() !== '') ?? code;
    return { version: 1, title: whose.trim().slice(0, 80), all: {}, shots: {}, frames: {} };
  }
  const read = readMetadataSheetText(metadata);
  return read.sheet ?? ('findings' in read ? read.findings.map((each) => sentence(each)).join(' ') : '');
}

/** What stands there: a text, or the texts of a list; none where nothing does. */
export function textsAt(sheet: MetadataSheet, path: SheetPath): readonly string[] {
  let at: unknown = sheet;
  for (const key of path) at = isPart(at) && Object.hasOwn(at, key) ? at[key] : undefined;
  if (typeof at === 'string') return [at];
  return Array.isArray(at) ? at.filter((each) => typeof each === 'string') : [];
}

/**
 * The text of the job's sheet with another value there; an empty one is taken out, and so is a part that has nothing left. Empty
 * where the sheet says nothing any more. Throws where it cannot be read: then nothing of it may be lost.
 */
export function textWith(job: Whose, path: SheetPath, value: string | readonly string[]): string {
  const sheet = sheetOfJob(job);
  if (typeof sheet === 'string') throw new Error(sheet);
  const { version, title, ...said } = put({ ...sheet }, path, value);
  const parts = Object.entries(said).filter(([, part]) => !isEmpty(part));
  if (parts.length === 0) return '';
  return JSON.stringify({ version, title, ...Object.fromEntries(parts) }, null, 2);
}

/** What is wrong with the text of a sheet; empty where nothing is. */
export function refusalOf(text: string): string {
  const read = text === '' ? null : readMetadataSheetText(text);
  if (read === null || read.sheet !== null) return '';
  return read.findings.map((each) => sentence(each)).join(' ');
}

type Part = Readonly<Record<string, unknown>>;

function put(part: Part, [key, ...rest]: SheetPath, value: string | readonly string[]): Part {
  const before = Object.hasOwn(part, key) ? part[key] : undefined;
  const [next, ...further] = rest;
  const now = next === undefined ? value : put(isPart(before) ? before : {}, [next, ...further], value);
  const entries = Object.entries(part).filter(([each]) => each !== key || !isEmpty(now));
  if (isEmpty(now)) return Object.fromEntries(entries);
  // In the place where it stood.
  return Object.hasOwn(part, key)
    ? Object.fromEntries(entries.map(([each, was]) => [each, each === key ? now : was]))
    : Object.fromEntries([...entries, [key, now]]);
}

function isPart(value: unknown): value is Part {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isEmpty(value: unknown): boolean {
  if (typeof value === 'string' || Array.isArray(value)) return value.length === 0;
  return isPart(value) && Object.keys(value).length === 0;
}

/** What parts the texts of a list as they are typed: a creator's name may hold a comma, a keyword does not. */
export function listIn(text: string, path: SheetPath): readonly string[] {
  const parts = text.split(path.at(-1) === 'keywords' ? /[,;\n]/ : ';').map((each) => each.trim());
  return [...new Set(parts.filter((each) => each !== ''))];
}

/** A list as it is typed. */
export function listText(texts: readonly string[], path: SheetPath): string {
  return texts.join(path.at(-1) === 'keywords' ? ', ' : '; ');
}

/** Title of the words that were used last for the client of this job, by another job of theirs; null where there is none. */
export function lastTitleOf(job: Whose, jobs: readonly Whose[]): string | null {
  const client = job.client.trim().toLowerCase();
  if (client === '') return null;
  const other = jobs.find(
    (each) => each.code !== job.code && each.metadata !== '' && each.client.trim().toLowerCase() === client,
  );
  if (other === undefined) return null;
  const sheet = sheetOfJob(other);
  return typeof sheet === 'string' ? null : sheet.title;
}
