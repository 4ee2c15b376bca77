import { SetsideError } from '../base/index.ts';
import type { KeepContext } from './context.ts';
import type { BrokenOffEnd } from './core/arrival-records.ts';
import { type EventFile, fileOf } from './core/keep-event.ts';

/** A file that broke off. */
export interface BrokenOffFile extends EventFile {
  readonly expectedBytes: number | null;
  readonly end: BrokenOffEnd;
}

/** Those that are waited for, oldest first. */
export function brokenOffFiles(context: KeepContext): BrokenOffFile[] {
  return context.state.openArrivals().flatMap((known) => {
    const { phase } = known;
    if (phase.kind !== 'broken-off' || known.folded !== null) return [];
    const file = fileOf(known, context.folders, phase.atMs);
    return [{ ...file, expectedBytes: phase.expectedBytes, end: phase.end }];
  });
}

/** Rejects `not-broken-off`. */
export async function letGo(context: KeepContext, arrival: string): Promise<void> {
  const known = context.state.arrivals.get(arrival);
  const phase = known?.phase;
  if (phase?.kind !== 'broken-off' || phase.settled !== 'no' || known?.folded !== null) {
    throw new SetsideError('not-broken-off', `arrival ${arrival} is none that broke off and is waited for`);
  }
  await context.journal.append({ type: 'let-go', arrival });
}
