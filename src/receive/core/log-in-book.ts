import type { EpochMs } from '../../base/index.ts';

const minuteMs = 60_000;

/** The bounds of wrong log-ins. */
export interface LogInLimits {
  /** Wrong log-ins of one address within a minute; beyond that nothing is checked any more. */
  readonly loginFailuresPerMinuteMax: number;
  /** Addresses whose wrong log-ins are remembered. */
  readonly failingAddressesMax: number;
}

/** What came of asking whether a log-in may be looked at. */
export interface LogInAttempt {
  /** False after too many failures of the address within a minute: then nothing is checked. */
  readonly isHeard: boolean;
  /** Wrong log-ins of the address within the last minute should this one be wrong too. */
  readonly failures: number;
}

/**
 * When the log-ins of each address failed. The doors of a station share one, so that who guesses at several doors has no
 * more tries than at one. Pure bookkeeping, bounded.
 */
export class LogInBook {
  readonly #limits: LogInLimits;
  readonly #failures = new Map<string, EpochMs[]>();

  constructor(limits: LogInLimits) {
    this.#limits = limits;
  }

  /**
   * Notes a log-in as wrong before it is looked at, so that many at once are not all looked at; {@link welcome} takes
   * the note back. One that is not heard is counted but not noted: a client that has its password right by now gets in
   * within a minute, however eagerly it knocks.
   */
  attempt(address: string, nowMs: EpochMs): LogInAttempt {
    this.#forgetOld(nowMs);
    const recent = this.#failures.get(address) ?? [];
    const isHeard = recent.length < this.#limits.loginFailuresPerMinuteMax;
    if (isHeard) this.#failures.set(address, [...recent, nowMs]);
    dropOldest(this.#failures, this.#limits.failingAddressesMax);
    return { isHeard, failures: recent.length + 1 };
  }

  /** The last attempt of the address was right. */
  welcome(address: string): void {
    const notes = this.#failures.get(address)?.slice(0, -1) ?? [];
    if (notes.length === 0) this.#failures.delete(address);
    else this.#failures.set(address, notes);
  }

  #forgetOld(nowMs: EpochMs): void {
    for (const [address, moments] of this.#failures) {
      const recent = moments.filter((moment) => nowMs - moment < minuteMs);
      if (recent.length === 0) this.#failures.delete(address);
      else if (recent.length < moments.length) this.#failures.set(address, recent);
    }
  }
}

/** Maps and sets keep the order in which things were put in. */
export function dropOldest(memory: Map<string, unknown> | Set<string>, sizeMax: number): void {
  for (const oldest of memory.keys()) {
    if (memory.size <= sizeMax) return;
    memory.delete(oldest);
  }
}
