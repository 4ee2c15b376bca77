import { networkInterfaces } from 'node:os';
import { leadsBeside } from './beside.ts';
import { isPrivateAddress, type OwnAddress } from './core/addresses.ts';

/** Every address this computer has now, in the system's order. */
export function ownAddresses(): readonly OwnAddress[] {
  return Object.entries(networkInterfaces()).flatMap(([name, entries]) => {
    const beside = leadsBeside(name);
    return (entries ?? []).map((entry) => ({
      address: entry.address,
      family: entry.family,
      interface: name,
      private: isPrivateAddress(entry.address),
      beside,
    }));
  });
}
