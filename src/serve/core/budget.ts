import type { EpochMs } from '../../base/index.ts';

export interface BudgetOptions {
  /** Given back each second. */
  readonly perSecond: number;
  /** Held at most. */
  readonly atOnce: number;
  /** Keys remembered, the latest first. */
  readonly keysMax: number;
}

interface Purse {
  readonly left: number;
  readonly atMs: EpochMs;
}

/** How often each key may do something: so much at once, then so much a second. Pure bookkeeping within a bound. */
export class Budget {
  readonly #options: BudgetOptions;
  readonly #purses = new Map<string, Purse>();

  constructor(options: BudgetOptions) {
    this.#options = options;
  }

  /** Takes one; false where nothing is left. */
  take(key: string, nowMs: EpochMs): boolean {
    const left = this.left(key, nowMs);
    const isThere = left >= 1;
    this.#purses.delete(key);
    this.#purses.set(key, { left: isThere ? left - 1 : left, atMs: nowMs });
    for (const oldest of this.#purses.keys()) {
      if (this.#purses.size <= this.#options.keysMax) break;
      this.#purses.delete(oldest);
    }
    return isThere;
  }

  /** Gives one back that was taken. */
  giveBack(key: string, nowMs: EpochMs): void {
    const left = Math.min(this.#options.atOnce, this.left(key, nowMs) + 1);
    if (this.#purses.has(key)) this.#purses.set(key, { left, atMs: nowMs });
  }

  /** What the key may still do now. */
  left(key: string, nowMs: EpochMs): number {
    const { perSecond, atOnce } = this.#options;
    const purse = this.#purses.get(key);
    if (purse === undefined) return atOnce;
    // A clock that was put back gives nothing.
    const sinceS = Math.max(0, nowMs - purse.atMs) / 1000;
    return Math.min(atOnce, purse.left + sinceS * perSecond);
  }
}

/** What counts as one place: an IPv4 address, or the /64 that a household is given of IPv6 (RFC 6177). */
export function placeOf(address: string): string {
  const plain = address.toLowerCase().split('%')[0] ?? address;
  const mapped = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/.exec(plain)?.[1];
  if (mapped !== undefined) return mapped;
  if (!plain.includes(':')) return plain;
  const [front = '', back = ''] = plain.split('::');
  const head = front === '' ? [] : front.split(':');
  const tail = back === '' ? [] : back.split(':');
  const zeros = plain.includes('::') ? Math.max(0, 8 - head.length - tail.length) : 0;
  return [...head, ...Array.from({ length: zeros }, () => '0'), ...tail].slice(0, 4).join(':');
}
