import type { Finding } from '../../../facts/index.ts';

/** One thing that happened on the line. */
export interface DiaryLine {
  /** RFC 3339, UTC. */
  readonly at: string;
  /** Null for a client that never got in. */
  readonly camera: string | null;
  readonly address: string;
  readonly finding: Finding;
}

export function isDayFile(name: string): boolean {
  return /^\d{4}-\d{2}-\d{2}\.jsonl$/.test(name);
}

/** Files of days before `firstDay` (`2026-10-26`); a file that is no day's is never named. */
export function daysBefore(names: readonly string[], firstDay: string): string[] {
  return names.filter((name) => isDayFile(name) && name.slice(0, 10) < firstDay);
}

/** Null for a line that was cut by a crash, or that somebody else wrote. */
export function parseDiaryLine(text: string): DiaryLine | null {
  try {
    const data: unknown = JSON.parse(text);
    return isDiaryLine(data) ? data : null;
  } catch {
    return null;
  }
}

function isDiaryLine(data: unknown): data is DiaryLine {
  if (typeof data !== 'object' || data === null) return false;
  const { at, camera, address, finding } = data as Partial<Record<keyof DiaryLine, unknown>>;
  return (
    typeof at === 'string' &&
    (camera === null || typeof camera === 'string') &&
    typeof address === 'string' &&
    isFinding(finding)
  );
}

function isFinding(data: unknown): data is Finding {
  if (typeof data !== 'object' || data === null || !('code' in data) || !('args' in data)) return false;
  const { code, args } = data;
  return (
    typeof code === 'string' && typeof args === 'object' && args !== null && Object.values(args).every(isArg)
  );
}

function isArg(value: unknown): boolean {
  return typeof value === 'string' || typeof value === 'number';
}
