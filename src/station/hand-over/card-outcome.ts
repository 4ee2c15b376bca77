import { counterMax, namePrefix } from '../../base/index.ts';
import { type CardChecked, type CardLast, type CardReport, cardLastsMax } from '../../keep/index.ts';
import { counterOf } from '../../metadata/index.ts';

export type CardCounts = Pick<CardChecked, 'safe' | 'once' | 'missing' | 'unread'>;

export function countsOf({ files }: Pick<CardReport, 'files'>): CardCounts {
  const of = (state: keyof CardCounts): number => files.filter((file) => file.state === state).length;
  return { safe: of('safe'), once: of('once'), missing: of('missing'), unread: of('unread') };
}

/** What the journal keeps of a check. */
export function cardOutcome(report: CardReport): CardChecked {
  return {
    type: 'card-checked',
    folder: report.folder,
    files: report.files.length,
    bytes: report.bytes,
    ...countsOf(report),
    isSafe: report.safe,
    lasts: lastsOf(report),
  };
}

/** The last number of each camera on the card, of the files that are here, and so known to be that camera's. */
function lastsOf({ files }: CardReport): CardLast[] {
  const numbers = new Map<
    string,
    { readonly camera: string; readonly prefix: string; numbers: Set<number> }
  >();
  for (const { path, camera } of files) {
    const name = path.slice(path.lastIndexOf('/') + 1);
    const counter = counterOf(name);
    if (camera === null || counter === null) continue;
    const prefix = namePrefix(name);
    const key = `${camera}/${prefix}`;
    const known = numbers.get(key) ?? { camera, prefix, numbers: new Set<number>() };
    known.numbers.add(counter);
    numbers.set(key, known);
  }
  return [...numbers.values()]
    .map(({ camera, prefix, numbers: seen }) => ({ camera, prefix, counter: lastOf([...seen]) }))
    .slice(0, cardLastsMax);
}

/**
 * The last of numbers that count on from 9999 to 1 (CIPA DC-009, DCF 2.0, 3.3.1): the one before the widest gap of the circle, so
 * that a card which came round ends behind 9999. One number at least.
 */
export function lastOf(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  const first = sorted[0] ?? 0;
  const gapAfter = (index: number): number =>
    (sorted[index + 1] ?? first + counterMax) - (sorted[index] ?? 0);
  const widest = sorted.reduce((best, _, index) => (gapAfter(index) >= gapAfter(best) ? index : best), 0);
  return sorted[widest] ?? first;
}
