import type { Finding } from '../../facts/index.ts';
import type { KeptFile } from '../core/arrival-records.ts';
import type { OriginalTrouble } from '../core/verified.ts';
import { badOriginalsFinding } from './place-findings.ts';

/**
 * The originals that are to be copied to one second place, the newest first; those that could not be wait apart, to be
 * tried again later.
 */
export class WaitingCopies {
  /** Arrivals to be copied, the newest last. */
  #waiting: string[] = [];
  /** Arrivals that could not be copied and are tried again later. */
  readonly #putOff = new Set<string>();
  /** Of these the originals that are not as they were received, by arrival: their paths. */
  readonly #badOriginals = new Map<string, string>();

  /** With those that are put off. */
  get count(): number {
    return this.#waiting.length + this.#putOff.size;
  }

  /** The newest to be copied of those that may be; null where none is, those put off aside. */
  newest(mayBe: (arrival: string) => boolean = () => true): string | null {
    return this.#waiting.findLast(mayBe) ?? null;
  }

  /** That originals wait in vain; null where none does. */
  finding(): Finding | null {
    return badOriginalsFinding([...this.#badOriginals.values()]);
  }

  /** All that wait, oldest first. Those put off are listed with them. */
  list(files: readonly KeptFile[]): void {
    this.#putOff.clear();
    this.#badOriginals.clear();
    this.#waiting = files.map(({ arrival }) => arrival);
  }

  add(arrival: string): void {
    this.#waiting.push(arrival);
  }

  /** Behind what waits already: the newest frames have no copy at all. */
  addBehind(arrivals: readonly string[]): void {
    this.#waiting.unshift(...arrivals);
  }

  done(arrival: string): void {
    this.#waiting = this.#waiting.filter((id) => id !== arrival);
  }

  putOff(arrival: string): void {
    this.#putOff.add(arrival);
  }

  /** One that was put off has had its time. */
  tryAgain(arrival: string): void {
    if (this.#putOff.delete(arrival)) this.addBehind([arrival]);
  }

  /** How the original was found when it was to be copied. */
  found({ arrival, original }: KeptFile, trouble: OriginalTrouble | null): void {
    if (trouble !== null) this.#badOriginals.set(arrival, original);
    else this.#badOriginals.delete(arrival);
  }

  /** Originals were read by somebody else: those that are not bad any more have had their time. */
  originalsRead(isBad: (arrival: string) => boolean): void {
    for (const arrival of [...this.#badOriginals.keys()]) {
      if (isBad(arrival)) continue;
      this.#badOriginals.delete(arrival);
      this.tryAgain(arrival);
    }
  }

  /** Another stands for this original now: nothing waits for it. */
  isReplaced(original: string): void {
    for (const [arrival, bad] of [...this.#badOriginals]) {
      if (bad !== original) continue;
      this.#badOriginals.delete(arrival);
      this.#putOff.delete(arrival);
    }
  }
}
