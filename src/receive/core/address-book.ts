import type { EpochMs } from '../../base/index.ts';
import type { DoorLimits } from './limits.ts';

const minuteMs = 60_000;

/** The bounds of addresses, which every door has. */
export type AddressLimits = Pick<
  DoorLimits,
  | 'connectionsMax'
  | 'connectionsReserved'
  | 'connectionsPerAddressMax'
  | 'knownAddressesMax'
  | 'failingAddressesMax'
  | 'loginFailuresPerMinuteMax'
>;

/** What came of asking whether a log-in may be looked at. */
export interface LogInAttempt {
  /** False after too many failures of the address within a minute: then nothing is checked. */
  readonly isHeard: boolean;
  /** Wrong log-ins of the address within the last minute should this one be wrong too. */
  readonly failures: number;
}

/**
 * What is remembered of addresses: how many connections each holds, when its log-ins failed, and whether a camera ever
 * logged in from it. Pure bookkeeping; each memory has its bound.
 */
export class AddressBook {
  readonly #limits: AddressLimits;
  readonly #connections = new Map<string, number>();
  readonly #failures = new Map<string, EpochMs[]>();
  readonly #known = new Set<string>();
  #total = 0;

  constructor(limits: AddressLimits) {
    this.#limits = limits;
  }

  /**
   * Counts a connection in; false where the limit of this address is reached, or the limit in all, which is lower for
   * an address from which no camera has logged in yet.
   */
  enter(address: string): boolean {
    const { connectionsMax, connectionsReserved, connectionsPerAddressMax } = this.#limits;
    const here = this.#connections.get(address) ?? 0;
    const places = this.#known.has(address) ? connectionsMax : connectionsMax - connectionsReserved;
    if (this.#total >= places || here >= connectionsPerAddressMax) return false;
    this.#total += 1;
    this.#connections.set(address, here + 1);
    return true;
  }

  /** Counts a connection out that had been let in. */
  leave(address: string): void {
    const here = (this.#connections.get(address) ?? 1) - 1;
    this.#total -= 1;
    if (here === 0) this.#connections.delete(address);
    else this.#connections.set(address, here);
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

  /** The last attempt of the address was right: its camera is known from now on. */
  welcome(address: string): void {
    const notes = this.#failures.get(address)?.slice(0, -1) ?? [];
    if (notes.length === 0) this.#failures.delete(address);
    else this.#failures.set(address, notes);
    this.#known.delete(address);
    this.#known.add(address);
    dropOldest(this.#known, this.#limits.knownAddressesMax);
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
function dropOldest(memory: Map<string, unknown> | Set<string>, sizeMax: number): void {
  for (const oldest of memory.keys()) {
    if (memory.size <= sizeMax) return;
    memory.delete(oldest);
  }
}
