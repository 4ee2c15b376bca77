import type { EpochMs } from '../../base/index.ts';
import type { InterfaceFacts } from '../facts.ts';
import { listOf, numberOf, textOf } from './json.ts';

/** What PowerShell answers as JSON. The names of the fields are from memory; what does not fit is left as it was known. */
export interface WindowsWords {
  /** InterfaceAlias, IPAddress, PrefixOrigin (`Dhcp`, `Manual`, `WellKnown`), LifeS. */
  readonly addresses: string;
  /** Name, MediaType (`802.3`, `Native 802.11`), Virtual, Speed in bits a second. */
  readonly adapters: string;
  /** InterfaceAlias, NextHop of the default routes. */
  readonly routes: string;
  readonly nowMs: EpochMs;
}

/** A lease longer than this is for ever. */
const longestLeaseS = 10 * 365 * 86_400;

/** The same interfaces with kind, gateway, and what was dealt out. */
export function windowsDetails(plain: readonly InterfaceFacts[], words: WindowsWords): InterfaceFacts[] {
  const [addresses, adapters, routes] = [words.addresses, words.adapters, words.routes].map(listOf);
  return plain.map((each) => {
    const adapter = adapters?.find((entry) => textOf(entry, 'Name') === each.name);
    const route = routes?.find((entry) => textOf(entry, 'InterfaceAlias') === each.name);
    return {
      ...each,
      kind: each.kind === 'loopback' ? 'loopback' : kindOf(adapter),
      bitsPerSecond: numberOf(adapter, 'Speed'),
      gateway: textOf(route, 'NextHop'),
      addresses: each.addresses.map((held) => {
        const entry = addresses?.find((told) => textOf(told, 'IPAddress') === held.address);
        const origin = textOf(entry, 'PrefixOrigin');
        if (held.given === 'self' || origin === null) return held;
        const lifeS = numberOf(entry, 'LifeS');
        return {
          ...held,
          given: origin === 'Dhcp' ? 'dealt-out' : origin === 'Manual' ? 'fixed' : held.given,
          leaseEndsMs:
            origin === 'Dhcp' && lifeS !== null && lifeS < longestLeaseS ? words.nowMs + lifeS * 1000 : null,
        };
      }),
    };
  });
}

function kindOf(adapter: unknown): InterfaceFacts['kind'] {
  const media = textOf(adapter, 'MediaType') ?? '';
  if (/802\.11/.test(media)) return 'wireless';
  if (/tunnel|wintun|tap|ppp/i.test(`${media} ${textOf(adapter, 'Name') ?? ''}`)) return 'tunnel';
  return /802\.3/.test(media) ? 'wired' : 'unknown';
}
