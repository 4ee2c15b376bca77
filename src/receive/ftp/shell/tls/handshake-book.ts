import type { FtpLimits } from '../../core/limits.ts';

/**
 * Handshakes of control connections that are under way at one door, in all and by address: each costs a signature, and
 * one that never ends holds its place. One address cannot use up what all share.
 */
export class HandshakeBook {
  readonly #limits: FtpLimits;
  readonly #pending = new Map<string, number>();
  #total = 0;

  constructor(limits: FtpLimits) {
    this.#limits = limits;
  }

  /** Counts one in, and gives what counts it out; null where too many are under way. */
  begin(address: string): (() => void) | null {
    const here = this.#pending.get(address) ?? 0;
    const { handshakesMax, handshakesPerAddressMax } = this.#limits;
    if (this.#total >= handshakesMax || here >= handshakesPerAddressMax) return null;
    this.#total += 1;
    this.#pending.set(address, here + 1);
    return () => this.#end(address);
  }

  #end(address: string): void {
    const here = (this.#pending.get(address) ?? 1) - 1;
    this.#total -= 1;
    if (here === 0) this.#pending.delete(address);
    else this.#pending.set(address, here);
  }
}
