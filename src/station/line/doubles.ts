import type { LineFacts, NeighbourFacts } from '../../line/index.ts';

/** A device that got another's address has it for good; two that share one answer in turn. */
const withinMs = 10 * 60_000;

/** Addresses that more than one device answers for in turn. */
export class Doubles {
  readonly #seen = new Map<string, { readonly hardware: string; readonly atMs: number }[]>();

  note(neighbours: readonly NeighbourFacts[], nowMs: number): void {
    for (const { address, hardware } of neighbours) {
      const before = (this.#seen.get(address) ?? []).filter(({ atMs }) => nowMs - atMs <= withinMs);
      const isSame = before.at(-1)?.hardware === hardware;
      this.#seen.set(address, [...(isSame ? before.slice(0, -1) : before), { hardware, atMs: nowMs }]);
    }
  }

  /** One after another is a change, back again is two. */
  all(nowMs: number): LineFacts['doubles'] {
    return [...this.#seen].flatMap(([address, held]) => {
      const fresh = held.filter(({ atMs }) => nowMs - atMs <= withinMs);
      const devices = [...new Set(fresh.map(({ hardware }) => hardware))];
      if (devices.length < 2 || fresh.length === devices.length) return [];
      const other = fresh.findLast(({ hardware }) => hardware !== fresh.at(-1)?.hardware);
      return [{ address, hardware: devices, otherMs: nowMs - (other?.atMs ?? nowMs), withinMs }];
    });
  }
}
