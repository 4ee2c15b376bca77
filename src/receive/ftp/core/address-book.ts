import type { EpochMs } from '../../../base/index.ts';
import type { FtpLimits } from './limits.ts';

const minuteMs = 60_000;

/**
 * What is remembered of addresses: how many connections each holds and when its log-ins failed. Pure bookkeeping;
 * an address without connections and recent failures is forgotten, so the book cannot grow past those.
 */
export class AddressBook {
  readonly #limits: FtpLimits;
  readonly #connections = new Map<string, number>();
  readonly #failures = new Map<string, EpochMs[]>();
  #total = 0;

  constructor(limits: FtpLimits) {
    this.#limits = limits;
  }

  /** Counts a connection in; false where the limit in all or of this address is reached. */
  enter(address: string): boolean {
    const here = this.#connections.get(address) ?? 0;
    if (this.#total >= this.#limits.connectionsMax || here >= this.#limits.connectionsPerAddressMax)
      return false;
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

  /** Whether a log-in of this address is looked at; not after too many failures within a minute. */
  mayTry(address: string, nowMs: EpochMs): boolean {
    return this.#recent(address, nowMs).length < this.#limits.loginFailuresPerMinuteMax;
  }

  /**
   * Notes a wrong log-in and says how many there were within the last minute, this one included. One that was not
   * looked at is counted but not noted: a client that has its password right by now gets in within a minute, however
   * eagerly it knocks.
   */
  fail(address: string, nowMs: EpochMs): number {
    this.#forgetOld(nowMs);
    const recent = this.#recent(address, nowMs);
    if (recent.length < this.#limits.loginFailuresPerMinuteMax)
      this.#failures.set(address, [...recent, nowMs]);
    return recent.length + 1;
  }

  #recent(address: string, nowMs: EpochMs): EpochMs[] {
    return (this.#failures.get(address) ?? []).filter((moment) => nowMs - moment < minuteMs);
  }

  #forgetOld(nowMs: EpochMs): void {
    for (const [address, moments] of this.#failures) {
      if (moments.every((moment) => nowMs - moment >= minuteMs)) this.#failures.delete(address);
    }
  }
}
