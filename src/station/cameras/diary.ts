import { appendFile, mkdir, readdir, readFile, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { type EpochMs, epochMsToRfc3339, errorCode } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import { type DiaryLine, daysBefore, isDayFile, parseDiaryLine } from './core/diary-line.ts';

/** A diary is kept for 30 days. */
const keptMs = 30 * 86_400_000;
/** Lines wait this long, so that a storm of them costs one write. */
const writeEveryMs = 500;
/** Strangers may fill so much of a day, and nobody's word is lost for theirs. */
const strangerLinesMax = 10_000;
/** A busy day has some thousands; a camera gone mad must not fill the disk. About 50 MB. */
const lineBytesMax = 50e6;

/** Of a page for one camera, from clients that never got in: a third, as of its log. */
const strangersPart = 3;
/** Everybody comes and goes: of a stranger it says nothing about any camera. */
const comings: ReadonlySet<string> = new Set(['line.connected', 'line.disconnected']);

export interface DiaryQuery {
  /**
   * Lines of this camera, and the newest of clients that were not let in, which may be it: a third of the page at most.
   * Undefined for all.
   */
  readonly camera?: string | undefined;
  /** `next` of the page before. */
  readonly before?: string | undefined;
  readonly limit: number;
}

export interface DiaryPage {
  /** Newest first. */
  readonly lines: readonly DiaryLine[];
  readonly next: string | null;
}

/**
 * What happened on the line, for 30 days: a file of JSON lines for each day (UTC) in `HOME/diary`. A log, not a
 * promise: it is written behind, unsynced, and a day's file beyond its bound takes no more.
 */
export class Diary {
  readonly #folder: string;
  readonly #now: () => EpochMs;
  readonly #failed: (thrown: unknown) => void;
  #waiting: DiaryLine[] = [];
  #timer: NodeJS.Timeout | null = null;
  #writing: Promise<void> = Promise.resolve();
  #day = '';
  #dayBytes = 0;
  #strangerLines = 0;

  private constructor(folder: string, now: () => EpochMs, failed: (thrown: unknown) => void) {
    this.#folder = folder;
    this.#now = now;
    this.#failed = failed;
  }

  /** `failed` hears of a diary that cannot be written; nothing waits for it. */
  static async open(home: string, now: () => EpochMs, failed: (thrown: unknown) => void): Promise<Diary> {
    const diary = new Diary(join(home, 'diary'), now, failed);
    await mkdir(join(home, 'diary'), { recursive: true });
    await diary.#turnTo(dayOf(now()));
    return diary;
  }

  note(line: DiaryLine): void {
    if (line.camera === null && ++this.#strangerLines > strangerLinesMax) return;
    this.#waiting.push(line);
    this.#timer ??= setTimeout(() => this.#write(), writeEveryMs);
  }

  async close(): Promise<void> {
    this.#write();
    await this.#writing;
  }

  #write(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
    const lines = this.#waiting;
    this.#waiting = [];
    if (lines.length === 0) return;
    this.#writing = this.#writing.then(() => this.#append(lines)).catch(this.#failed);
  }

  async #append(lines: readonly DiaryLine[]): Promise<void> {
    const today = dayOf(this.#now());
    if (today !== this.#day) await this.#turnTo(today);
    if (this.#dayBytes > lineBytesMax) return;
    const text = lines.map((line) => `${JSON.stringify(line)}\n`).join('');
    this.#dayBytes += text.length;
    await appendFile(join(this.#folder, `${today}.jsonl`), text, { mode: 0o600 });
  }

  /** A new day: what is older than 30 days is forgotten. */
  async #turnTo(day: string): Promise<void> {
    this.#day = day;
    this.#strangerLines = 0;
    this.#dayBytes = (await stat(join(this.#folder, `${day}.jsonl`)).catch(() => ({ size: 0 }))).size;
    for (const name of daysBefore(await readdir(this.#folder), dayOf(this.#now() - keptMs))) {
      await rm(join(this.#folder, name), { force: true });
    }
  }
}

/** A page of a home's diary; a command may read it beside the station. */
export async function readDiary(home: string, query: DiaryQuery): Promise<DiaryPage> {
  const folder = join(home, 'diary');
  const files = (await readdir(folder).catch(() => [])).filter(isDayFile).sort().reverse();
  const start = parseCursor(query.before);
  const lines: DiaryLine[] = [];
  const isAsked = askedBy(query);
  for (const name of files) {
    const day = name.slice(0, 10);
    if (start !== null && day > start.day) continue;
    const all = await readLines(join(folder, name));
    const end = start?.day === day ? Math.min(start.line, all.length) : all.length;
    for (let index = end - 1; index >= 0; index--) {
      const line = all[index];
      if (line === null || line === undefined || !isAsked(line)) continue;
      if (lines.length === query.limit) return { lines, next: `${day}:${index + 1}` };
      lines.push(line);
    }
  }
  return { lines, next: null };
}

async function readLines(path: string): Promise<(DiaryLine | null)[]> {
  try {
    return (await readFile(path, 'utf8')).trimEnd().split('\n').map(parseDiaryLine);
  } catch (thrown) {
    if (errorCode(thrown) === 'ENOENT') return [];
    throw thrown;
  }
}

/** Whether a line stands on a page; asked once for each, from the newest on. */
function askedBy({ camera, limit }: DiaryQuery): (line: DiaryLine) => boolean {
  let strangersLeft = Math.floor(limit / strangersPart);
  return (line) => {
    if (camera === undefined || line.camera === camera) return true;
    return line.camera === null && !comings.has(line.finding.code) && strangersLeft-- > 0;
  };
}

function parseCursor(text: string | undefined): { day: string; line: number } | null {
  const match = /^(\d{4}-\d{2}-\d{2}):(\d{1,9})$/.exec(text ?? '');
  return match === null ? null : { day: match[1] ?? '', line: Number(match[2]) };
}

function dayOf(atMs: EpochMs): string {
  return epochMsToRfc3339(atMs).slice(0, 10);
}

/** One line for a report. */
export function diaryLine(
  atMs: EpochMs,
  camera: string | null,
  address: string,
  finding: Finding,
): DiaryLine {
  return { at: epochMsToRfc3339(atMs), camera, address, finding };
}
