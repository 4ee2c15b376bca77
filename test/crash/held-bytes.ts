import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { JournalRecord } from '../../src/keep/index.ts';

/** So many bytes with this hash came by this arrival, and were journalled when it ended. */
interface Came {
  readonly sizeBytes: number;
  readonly sha256: string;
}

/**
 * Arrivals of whose journalled bytes some are nowhere: neither in `incoming/`, nor at the beginning of the original or of
 * the attempt that they were folded into.
 */
export async function unheldArrivals(home: string, records: readonly JournalRecord[]): Promise<string[]> {
  const came = new Map<string, Came>();
  const incoming = new Map<string, string>();
  const original = new Map<string, string>();
  const into = new Map<string, string>();
  for (const record of records) {
    if (record.type === 'announced') incoming.set(record.arrival, record.incoming);
    if (record.type === 'kept') original.set(record.arrival, record.original);
    if (record.type === 'folded') into.set(record.arrival, record.into);
    if (record.type === 'again') came.set(record.arrival, record);
    if (record.type === 'broken-off' && record.sha256 !== null)
      came.set(record.arrival, { sizeBytes: record.sizeBytes, sha256: record.sha256 });
  }
  const pathsOf = (arrival: string): string[] => {
    const here = [join(home, 'incoming', incoming.get(arrival) ?? '-')];
    const kept = original.get(arrival);
    const holder = into.get(arrival);
    return [
      ...here,
      ...(kept === undefined ? [] : [join(home, kept)]),
      ...(holder === undefined ? [] : pathsOf(holder)),
    ];
  };
  const unheld: string[] = [];
  for (const [arrival, bytes] of came) {
    const held = await Promise.all(pathsOf(arrival).map((path) => beginsWith(path, bytes)));
    if (!held.includes(true)) unheld.push(`${arrival} ${incoming.get(arrival)} ${bytes.sizeBytes}`);
  }
  return unheld;
}

async function beginsWith(path: string, { sizeBytes, sha256 }: Came): Promise<boolean> {
  const found = await stat(path).catch(() => null);
  if (found === null || !found.isFile() || found.size < sizeBytes) return false;
  const hash = createHash('sha256');
  if (sizeBytes > 0)
    for await (const chunk of createReadStream(path, { end: sizeBytes - 1 })) hash.update(chunk);
  return hash.digest('hex') === sha256;
}
