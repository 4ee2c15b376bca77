import { networkInterfaces } from 'node:os';
import { leadsBeside } from './beside.ts';
import { isPrivateAddress, type OwnAddress } from './core/addresses.ts';

/** Several ask in one turn, each few seconds; where an interface leads to changes with whole networks. */
const besideKnownMs = 1_000;
let besideAskedMs = Number.NEGATIVE_INFINITY;
const beside = new Map<string, boolean>();

/** Every address this computer has now, in the system's order. */
export function ownAddresses(): readonly OwnAddress[] {
  return Object.entries(networkInterfaces()).flatMap(([name, entries]) => {
    const isBeside = besideNow(name);
    return (entries ?? []).map((entry) => ({
      address: entry.address,
      family: entry.family,
      interface: name,
      private: isPrivateAddress(entry.address),
      beside: isBeside,
    }));
  });
}

function besideNow(name: string): boolean {
  const nowMs = performance.now();
  if (nowMs - besideAskedMs >= besideKnownMs) {
    besideAskedMs = nowMs;
    beside.clear();
  }
  const known = beside.get(name) ?? leadsBeside(name);
  beside.set(name, known);
  return known;
}
