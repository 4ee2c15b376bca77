import type { EpochMs } from '../../base/index.ts';
import type { DoorLimits } from './limits.ts';
import { dropOldest, type LogInAttempt, LogInBook } from './log-in-book.ts';

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

/**
 * What a door remembers of addresses: how many connections each holds, and whether a camera ever logged in from it. When
 * log-ins failed stands in a {@link LogInBook}, which the doors of a station share. Pure bookkeeping; each memory has its bound.
 */
export class AddressBook {
  readonly #limits: AddressLimits;
  readonly #connections = new Map<string, number>();
  readonly #logIns: LogInBook;
  readonly #known = new Set<string>();
  #total = 0;

  constructor(limits: AddressLimits, logIns: LogInBook = new LogInBook(limits)) {
    this.#limits = limits;
    this.#logIns = logIns;
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

  /** As {@link LogInBook.attempt}. */
  attempt(address: string, nowMs: EpochMs): LogInAttempt {
    return this.#logIns.attempt(address, nowMs);
  }

  /** The last attempt of the address was right: its camera is known from now on. */
  welcome(address: string): void {
    this.#logIns.welcome(address);
    this.#known.delete(address);
    this.#known.add(address);
    dropOldest(this.#known, this.#limits.knownAddressesMax);
  }
}
