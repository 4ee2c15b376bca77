import type { KeepState } from './keep-state.ts';
import type { KnownArrival } from './known-arrival.ts';

/** Who may hold the bytes of an attempt too. */
export interface Keeper {
  readonly arrival: string;
  /** Path of the original below the home, or null where it lies in `incoming/` itself. */
  readonly original: string | null;
  readonly incoming: string;
  /** Held for certain. */
  readonly sizeBytes: number;
  /** Of the original; null for an attempt. */
  readonly sha256: string | null;
}

/**
 * The file that is to be asked whether it holds all bytes of an attempt in `incoming/`, or null where none comes into
 * question: then the attempt stays as it is.
 *
 * - Sent again though it was kept, or made good: the original that the journal names.
 * - Broken off, waited for, and not what the camera's folder shows: the longest other attempt at the same path that is
 *   waited for. What the folder shows can be resumed and stays, and so does what somebody let go.
 * - None of these while another upload begins with a copy of it.
 */
export function keeperOf(state: KeepState, attempt: KnownArrival, sizeBytes: number): Keeper | null {
  const { phase } = attempt;
  // An upload that goes on from its middle begins with a copy of it, which may be under way.
  if (state.openArrivals().some(({ over, phase: { kind } }) => over === attempt.id && kind === 'arriving'))
    return null;
  if (phase.kind === 'again') return keptKeeper(state, phase.sameAs, sizeBytes);
  if (phase.kind !== 'broken-off') return null;
  if (phase.settled === 'made-good') return keptKeeper(state, phase.by, sizeBytes);
  if (phase.settled === 'let-go' || state.isShown(attempt)) return null;
  return longestAttempt(state, attempt, sizeBytes);
}

function keptKeeper(state: KeepState, id: string | null, sizeBytes: number): Keeper | null {
  const known = id === null ? undefined : state.arrivals.get(id);
  if (known?.phase.kind !== 'kept' || known.phase.file.sizeBytes < sizeBytes) return null;
  const { file } = known.phase;
  return {
    arrival: known.id,
    original: file.original,
    incoming: known.incoming,
    sizeBytes: file.sizeBytes,
    sha256: file.sha256,
  };
}

function longestAttempt(state: KeepState, attempt: KnownArrival, sizeBytes: number): Keeper | null {
  let keeper: Keeper | null = null;
  for (const { id, phase, incoming, folded } of state.brokenOffAt(attempt.camera, attempt.path)) {
    if (phase.kind !== 'broken-off' || id === attempt.id || folded !== null) continue;
    if (phase.sizeBytes < Math.max(sizeBytes, 1) || phase.sizeBytes < (keeper?.sizeBytes ?? 0)) continue;
    keeper = { arrival: id, original: null, incoming, sizeBytes: phase.sizeBytes, sha256: null };
  }
  return keeper;
}
