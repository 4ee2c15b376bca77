import type { WallState } from '../facts.ts';
import { type Chain, meets, type Packet, type RuleSet } from './rule-set.ts';

/** What may come of a packet; several where a rule asks what is not known of it. */
type Ends = ReadonlySet<'accept' | 'drop' | 'on'>;

/** More than any firewall nests; a set that jumps in a circle is refused by the system itself. */
const depthMax = 16;

export interface Fate {
  readonly state: WallState;
  /** The first chain that stops it, or may: `inet filter input`; null where none does. */
  readonly chain: string | null;
}

/**
 * What becomes of a packet to this computer, after nft(8), "hook": each chain of the hook is asked in order of its
 * priority; one that drops is the last word, one that accepts passes it to the next.
 */
export function fateOf(set: RuleSet, packet: Packet): Fate {
  const asked = set
    .filter(({ hook }) => hook !== null)
    .sort((one, other) => (one.hook?.priority ?? 0) - (other.hook?.priority ?? 0));
  let state: WallState = 'open';
  let where: string | null = null;
  for (const chain of asked) {
    const ends = through(set, chain, packet, 0);
    const mayDrop = ends.has('drop') || (ends.has('on') && chain.hook?.policy === 'drop');
    if (!mayDrop) continue;
    const mayPass = ends.has('accept') || (ends.has('on') && chain.hook?.policy === 'accept');
    if (!mayPass) return { state: 'shut', chain: chain.name };
    state = 'unknown';
    where ??= chain.name;
  }
  return { state, chain: where };
}

/** `on` where the chain has no word and the one that jumped to it goes on. */
function through(set: RuleSet, chain: Chain, packet: Packet, depth: number): Ends {
  const ends = new Set<'accept' | 'drop' | 'on'>();
  for (const rule of chain.rules) {
    const met = meets(rule, packet);
    if (met === false || rule.target === null) continue;
    const { target } = rule;
    if (!('chain' in target)) {
      ends.add(target.kind === 'return' ? 'on' : target.kind);
    } else {
      const wanted = `${chain.table} ${target.chain}`;
      const next = set.find(({ table, name }) => table === chain.table && name === wanted);
      const inside: Ends =
        next === undefined || depth >= depthMax ? new Set(['on']) : through(set, next, packet, depth + 1);
      for (const end of inside) if (end !== 'on' || target.kind === 'goto') ends.add(end);
      // A jump that may come back goes on with the next rule.
      if (target.kind === 'jump' && inside.has('on')) continue;
    }
    if (met === true) return ends;
  }
  return ends.add('on');
}
