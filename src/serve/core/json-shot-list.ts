import { type ListedShot, listedShot } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import { jobLimits } from '../../job/index.ts';

/** A shot list that came as JSON, read shot by shot: one that is wrong is named, and the others are read. */
export interface JsonShotList {
  /** `line` is the shot's place in the list, 1 the first. */
  readonly shots: readonly { readonly line: number; readonly shot: ListedShot }[];
  readonly bad: readonly { readonly line: number; readonly finding: Finding }[];
  /** Fields that say nothing to us, each once. */
  readonly unknown: readonly string[];
  /** What is to be said of the whole file. */
  readonly findings: readonly Finding[];
}

const fields: ReadonlySet<string> = new Set(Object.keys(listedShot.shape));

/** Never throws: whatever JSON can hold is a list, or is said to be none. A list may stand alone, without its `shots`. */
export function readJsonShotList(body: unknown): JsonShotList {
  const list = Array.isArray(body) ? body : isRecord(body) ? body.shots : undefined;
  const beside = isRecord(body) ? Object.keys(body).filter((field) => field !== 'shots') : [];
  if (!Array.isArray(list)) return { ...nothing, findings: [{ code: 'shot-list.no-shots', args: {} }] };
  const read = list
    .slice(0, jobLimits.shotListLinesMax)
    .map((given: unknown, index) => readShot(index + 1, given));
  const unread = list.length - read.length;
  return {
    shots: read.flatMap((each) => ('shot' in each ? each : [])),
    bad: read.flatMap((each) => ('finding' in each ? each : [])),
    unknown: [...new Set([...beside, ...read.flatMap((each) => ('unknown' in each ? each.unknown : []))])],
    findings: unread === 0 ? [] : [notRead(unread)],
  };
}

const nothing: JsonShotList = { shots: [], bad: [], unknown: [], findings: [] };

function notRead(count: number): Finding {
  return { code: 'shot-list.lines-not-read', args: { count, max: jobLimits.shotListLinesMax } };
}

type Read =
  | { readonly line: number; readonly shot: ListedShot; readonly unknown: readonly string[] }
  | { readonly line: number; readonly finding: Finding };

function readShot(line: number, given: unknown): Read {
  if (!isRecord(given)) return bad(line, 'no-name');
  const known = Object.fromEntries(Object.entries(given).filter(([field]) => fields.has(field)));
  const parsed = listedShot.safeParse(known);
  if (parsed.success) {
    const unknown = Object.keys(given).filter((field) => !fields.has(field));
    return { line, shot: parsed.data, unknown };
  }
  const field = String(parsed.error.issues[0]?.path[0] ?? '');
  const said = said60(known[field]);
  if (field === 'id') return bad(line, 'bad-id', { id: said });
  if (field !== 'name') return bad(line, 'bad-cell', { column: field, cell: said });
  const name = typeof known.name === 'string' ? known.name.trim() : '';
  return name === ''
    ? bad(line, 'no-name')
    : bad(line, 'name-too-long', { max: jobLimits.nameCharactersMax });
}

function bad(line: number, code: string, args: Finding['args'] = {}): Read {
  return { line, finding: { code: `shot-list.${code}`, args: { line, ...args } } };
}

/** As much of it as a line has room for. */
function said60(value: unknown): string {
  return (typeof value === 'string' ? value : (JSON.stringify(value) ?? '')).slice(0, 60);
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
