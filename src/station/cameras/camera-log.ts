import type { EpochMs } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { LineReport } from '../../receive/index.ts';
import type { DiaryLine } from './core/diary-line.ts';
import { RepeatedBreaks } from './core/repeated-breaks.ts';
import { type Diary, diaryLine } from './diary.ts';

export interface LogEntry {
  readonly atMs: EpochMs;
  /** Null for a client that never got in. */
  readonly camera: string | null;
  /** The client's; empty where there is none. */
  readonly address: string;
  readonly finding: Finding;
}

/** What says that nothing is missed in a watched folder any more, or that it is looked through anew. */
const over: ReadonlySet<string> = new Set(['line.watch-none-missed', 'line.watch-begun']);

/** Newest entries that are remembered for each camera, and for everybody who never logged in. */
const entriesMax = 60;
/** Of these, from clients that never got in: a flood of strangers must not push what a camera did off its page. */
const strangersShownMax = 20;

/** The newest of what happened on the line, per camera: the page shows it in plain words. The diary has the rest. */
export class CameraLog {
  readonly #now: () => EpochMs;
  readonly #entries = new Map<string, LogEntry[]>();
  readonly #connections = new Map<string, number>();
  readonly #lastSeenMs = new Map<string, EpochMs>();
  /** Of each camera, by watched folder: what was not taken of it. */
  readonly #notTaken = new Map<string, Map<string, Finding>>();

  readonly #breaks = new Map<string, RepeatedBreaks>();
  readonly #diary: Pick<Diary, 'note'>;

  constructor(now: () => EpochMs, diary: Pick<Diary, 'note'>) {
    this.#now = now;
    this.#diary = diary;
  }

  take(report: LineReport): void {
    const camera = report.camera ?? '';
    const finding =
      report.camera === null ? report.finding : this.#breaksOf(report.camera).noted(report.finding);
    const { address } = report;
    const entry = { atMs: this.#now(), camera: report.camera, address, finding };
    this.#diary.note(diaryLine(entry.atMs, report.camera, report.address, finding));
    this.#entries.set(camera, [...(this.#entries.get(camera) ?? []), entry].slice(-entriesMax));
    if (camera === '') return;
    this.#lastSeenMs.set(camera, entry.atMs);
    this.#noteNotTaken(camera, report);
    if (report.change === 'logged-in') this.#count(camera, 1);
    if (report.change === 'disconnected') this.#count(camera, -1);
  }

  /** Takes up where the station before this one stopped: its newest lines, newest first. */
  recall(lines: readonly DiaryLine[]): void {
    for (const { at, camera, address, finding } of [...lines].reverse()) {
      const entries = this.#entries.get(camera ?? '') ?? [];
      this.#entries.set(
        camera ?? '',
        [...entries, { atMs: Date.parse(at), camera, address, finding }].slice(-entriesMax),
      );
    }
  }

  /** A camera's own entries and the newest of clients that never got in, in order: a wrong password is nobody's yet. */
  entries(camera: string): readonly LogEntry[] {
    const own = this.#entries.get(camera) ?? [];
    const strangers = (this.#entries.get('') ?? []).slice(-strangersShownMax);
    return [...own, ...strangers].sort((a, b) => a.atMs - b.atMs).slice(-entriesMax);
  }

  /** The newest of everybody, oldest first. */
  all(): readonly LogEntry[] {
    return [...this.#entries.values()].flat().sort((one, other) => one.atMs - other.atMs);
  }

  /** Files in a folder that is watched for the camera can not be taken; null where all can. */
  notTaken(camera: string): Finding | null {
    const [first] = this.#notTaken.get(camera)?.values() ?? [];
    return first ?? null;
  }

  connected(camera: string): boolean {
    return (this.#connections.get(camera) ?? 0) > 0;
  }

  lastSeenMs(camera: string): EpochMs | null {
    return this.#lastSeenMs.get(camera) ?? null;
  }

  /** A card that is out may be wiped next: what was not taken of it stands until one is watched again. */
  #noteNotTaken(camera: string, { address, finding }: LineReport): void {
    const folders = this.#notTaken.get(camera) ?? new Map<string, Finding>();
    this.#notTaken.set(camera, folders);
    if (finding.code === 'line.watch-not-taken') folders.set(address, finding);
    else if (over.has(finding.code)) folders.delete(address);
  }

  #breaksOf(camera: string): RepeatedBreaks {
    const known = this.#breaks.get(camera) ?? new RepeatedBreaks();
    this.#breaks.set(camera, known);
    return known;
  }

  #count(camera: string, change: 1 | -1): void {
    this.#connections.set(camera, Math.max(0, (this.#connections.get(camera) ?? 0) + change));
  }
}
