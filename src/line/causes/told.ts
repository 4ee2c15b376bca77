import type { Finding } from '../../facts/index.ts';
import { addressUse } from '../addresses.ts';
import type { LineFact, LineFacts } from '../facts.ts';

/** What happened longer ago belongs to another day's shooting. */
const recentMs = 6 * 3_600_000;

/** The same trouble of one client, with nothing done right since. */
export interface Trouble {
  /** Null for a client that never got in. */
  readonly camera: string | null;
  readonly address: string;
  readonly times: number;
  /** The newest. */
  readonly last: LineFact;
}

/** How it is known that a trouble is over. */
export type SettledBy = 'log-in' | 'upload';

const settles: Readonly<Record<SettledBy, ReadonlySet<string>>> = {
  'log-in': new Set(['line.logged-in']),
  upload: new Set(['line.upload-kept', 'line.upload-kept-damaged']),
};

/**
 * Lines of these codes of each client since it last did right, gathered by what `sort` says of them (a client with an
 * unknown user and one with a wrong password are two things).
 */
export function troubles(
  { lines, nowMs }: Pick<LineFacts, 'lines' | 'nowMs'>,
  codes: readonly string[],
  settledBy: SettledBy,
  sort: (finding: Finding) => string = ({ code }) => code,
): readonly Trouble[] {
  const open = new Map<string, Trouble>();
  for (const line of lines) {
    if (nowMs - line.atMs > recentMs) continue;
    if (settles[settledBy].has(line.finding.code)) {
      for (const [key, trouble] of open) if (isSameClient(trouble, line)) open.delete(key);
    }
    if (!codes.includes(line.finding.code)) continue;
    const key = JSON.stringify([line.camera ?? line.address, sort(line.finding)]);
    open.set(key, {
      camera: line.camera,
      address: addressOf(line),
      times: (open.get(key)?.times ?? 0) + 1,
      last: line,
    });
  }
  return [...open.values()];
}

/** A client that never got in is known by its address alone. */
function isSameClient(trouble: Trouble, line: LineFact): boolean {
  return trouble.camera === null ? trouble.address === addressOf(line) : trouble.camera === line.camera;
}

/** The diary's own column may be empty where a finding says it. */
export function addressOf({ address, finding }: LineFact): string {
  return address === '' ? String(finding.args.address ?? '') : address;
}

/** How often, when last, from where: evidence of most troubles. */
export function timesOf({ times, last, address }: Trouble, { nowMs }: Pick<LineFacts, 'nowMs'>): Finding {
  return { code: 'line-seen.times', args: { times, ms: Math.max(0, nowMs - last.atMs), address } };
}

/** Whether anybody from outside this computer has reached a door since the start. */
export function somebodyCame({ lines, startedMs }: LineFacts): boolean {
  return lines.some((line) => {
    const address = addressOf(line);
    return line.atMs >= startedMs && address !== '' && addressUse(address) !== 'loopback';
  });
}

/** Whether a camera has logged in since the start, from wherever. */
export function hasLoggedIn({ lines, startedMs }: Pick<LineFacts, 'lines' | 'startedMs'>): boolean {
  return lines.some(({ atMs, finding }) => atMs >= startedMs && finding.code === 'line.logged-in');
}
