import { isInNetwork, numberOfV4 } from '../addresses.ts';
import { fieldsOf, listOf, numberOf, textOf } from '../reading/json.ts';
import type { Packet, Rule, Target, Test } from './rule-set.ts';

type Sets = ReadonlyMap<string, readonly unknown[]>;
/** What a packet has where an expression looks: a number or a word; null where that is not known. */
type Look = (packet: Packet) => string | number | null;

/** `match` of libnftables-json(5). */
export function matchTest(match: unknown, sets: Sets): Test {
  const { left, right } = fieldsOf(match);
  const op = textOf(match, 'op') ?? '==';
  const look = lookOf(left);
  if (look === null || !['==', '!=', 'in'].includes(op)) return () => null;
  return (packet) => {
    const held = look(packet);
    if (held === null) return null;
    const isHeld = holds(right, held, sets);
    return isHeld === null ? null : isHeld !== (op === '!=');
  };
}

/** `vmap`: each entry a rule of its own. */
export function verdictMapRules(
  value: unknown,
  sets: Sets,
  targetOf: (kind: string, value: unknown) => Target | null,
): Rule[] {
  const { key, data } = fieldsOf(value);
  const entries = typeof data === 'string' ? (sets.get(data.slice(1)) ?? []) : listOf(fieldsOf(data).set);
  return entries.map((entry) => {
    const [element, verdict] = listOf(entry);
    const [kind = '', held] = Object.entries(fieldsOf(verdict))[0] ?? [];
    return {
      tests: [matchTest({ op: '==', left: key, right: element }, sets)],
      target: targetOf(kind, held),
    };
  });
}

/** A new TCP connection to an address of this computer: what is known of its first packet. */
function lookOf(left: unknown): Look | null {
  const { payload, meta, ct, fib } = fieldsOf(left);
  if (payload !== undefined) return payloadLook(`${textOf(payload, 'protocol')} ${textOf(payload, 'field')}`);
  if (meta !== undefined) return metaLook(textOf(meta, 'key') ?? '');
  if (ct !== undefined) return ctLook(textOf(ct, 'key') ?? '');
  if (fib !== undefined) return textOf(fib, 'result') === 'type' ? () => 'local' : null;
  // The flags under a mask: a first packet has SYN alone (RFC 9293 section 3.5).
  const [masked] = listOf(fieldsOf(left)['&']);
  return textOf(fieldsOf(masked).payload, 'field') === 'flags' ? () => 'syn' : null;
}

function payloadLook(name: string): Look | null {
  switch (name) {
    case 'tcp dport':
    case 'th dport':
      return ({ port }) => port;
    // It has none: a rule about another protocol is not about it.
    case 'udp dport':
    case 'udp sport':
    case 'icmp type':
      return () => '';
    case 'ip saddr':
      return ({ source }) => source;
    case 'ip daddr':
      return ({ destination }) => destination;
    case 'ip protocol':
      return () => 'tcp';
    default:
      return null;
  }
}

function metaLook(key: string): Look | null {
  switch (key) {
    case 'iif':
    case 'iifname':
      return (packet) => packet.interface;
    case 'l4proto':
      return () => 'tcp';
    case 'nfproto':
      return () => 'ipv4';
    case 'protocol':
      return () => 'ip';
    case 'pkttype':
      return () => 'host';
    default:
      return null;
  }
}

function ctLook(key: string): Look | null {
  switch (key) {
    case 'state':
      return () => 'new';
    case 'direction':
      return () => 'original';
    default:
      return null;
  }
}

/** Whether an operand holds a value; null where it is in a form that is not read. */
function holds(right: unknown, held: string | number, sets: Sets): boolean | null {
  if (typeof right === 'number') return right === held;
  if (typeof right === 'string') {
    if (!right.startsWith('@')) return isWord(right, held);
    const elements = sets.get(right.slice(1));
    return elements === undefined ? null : anyHolds(elements, held, sets);
  }
  if (Array.isArray(right)) return anyHolds(right, held, sets);
  const { set, prefix, range, elem } = fieldsOf(right);
  if (set !== undefined) return anyHolds(listOf(set), held, sets);
  if (prefix !== undefined) {
    return isInNetwork(String(held), `${textOf(prefix, 'addr')}/${numberOf(prefix, 'len')}`);
  }
  if (range !== undefined) return isInRange(listOf(range), held);
  return elem === undefined ? null : holds(fieldsOf(elem).val, held, sets);
}

/** An interface's name may end in a star: every name that begins so. */
function isWord(word: string, held: string | number): boolean {
  const text = String(held);
  return word.endsWith('*') ? text.startsWith(word.slice(0, -1)) : word === text;
}

function anyHolds(elements: readonly unknown[], held: string | number, sets: Sets): boolean | null {
  const said = elements.map((element) => holds(element, held, sets));
  if (said.includes(true)) return true;
  return said.includes(null) ? null : false;
}

function isInRange([from, to]: readonly unknown[], held: string | number): boolean | null {
  if (typeof from === 'number' && typeof to === 'number') return Number(held) >= from && Number(held) <= to;
  const [low, high, value] = [from, to, held].map((address) => numberOfV4(String(address)));
  if (low == null || high == null || value == null) return null;
  return value >= low && value <= high;
}
