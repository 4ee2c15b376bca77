import { isInNetwork } from '../addresses.ts';
import type { Chain, Packet, Rule, RuleSet, Target, Test } from './rule-set.ts';

/** What the table `filter` of the older kernel interface is called here; nft has no name for it, since it does not see it. */
export const legacyTable = 'iptables-legacy filter';

/**
 * The chains of the table `filter` as `iptables-save` prints them (iptables(8), iptables-extensions(8)): those of INPUT and
 * what it jumps to. The name of the table tells whose it is: `ip filter`, or {@link legacyTable}.
 */
export function parseIptables(text: string, named = 'ip filter'): RuleSet {
  const chains = new Map<string, { policy: string; rules: Rule[] }>();
  let table = '';
  for (const line of text.split('\n')) {
    if (line.startsWith('*')) table = line.slice(1).trim();
    if (table !== 'filter') continue;
    const declared = /^:(\S+) (\S+)/.exec(line);
    if (declared !== null) chains.set(declared[1] ?? '', { policy: declared[2] ?? '-', rules: [] });
    const added = /^-A (\S+) ?(.*)$/.exec(line);
    if (added !== null) chains.get(added[1] ?? '')?.rules.push(parseRule(wordsOf(added[2] ?? '')));
  }
  return [...chains].map(
    ([name, { policy, rules }]): Chain => ({
      name: `${named} ${name}`,
      table: named,
      hook: name === 'INPUT' ? { priority: 0, policy: policy === 'DROP' ? 'drop' : 'accept' } : null,
      rules,
    }),
  );
}

/** Words, those in quotes as one: comments are free text. */
function wordsOf(text: string): string[] {
  return [...text.matchAll(/"((?:[^"\\]|\\.)*)"|(\S+)/g)].map((match) => match[1] ?? match[2] ?? '');
}

/** What an option asks of a packet; an option that is not here asks what is not known of it. */
const asks: Readonly<Record<string, (value: string) => Test>> = {
  '-s':
    (value) =>
    ({ source }) =>
      isInNetwork(source, value),
  '-d':
    (value) =>
    ({ destination }) =>
      isInNetwork(destination, value),
  '-i': (value) => (packet) => isInterface(value, packet),
  '-p': (value) => () => value === 'tcp' || value === 'all' || value === '6',
  '--dport':
    (value) =>
    ({ port }) =>
      isAmong(value, port),
  '--dports':
    (value) =>
    ({ port }) =>
      isAmong(value, port),
  '--ctstate': (value) => () => value.split(',').includes('NEW'),
  '--state': (value) => () => value.split(',').includes('NEW'),
  '--dst-type': (value) => () => value === 'LOCAL',
  '--comment': () => () => true,
};

/** Options that say how a target acts or name a match, and ask nothing. */
const mute: ReadonlySet<string> = new Set(['-m', '--reject-with', '--log-prefix', '--log-level']);

function parseRule(words: readonly string[]): Rule {
  const tests: Test[] = [];
  let target: Target | null = null;
  let isNot = false;
  for (let at = 0; at < words.length; at += 1) {
    const word = words[at] ?? '';
    if (word === '!') {
      isNot = true;
      continue;
    }
    const value = words[at + 1] ?? '';
    if (word === '-j' || word === '-g') target = targetOf(word, value);
    else if (word === '--syn') tests.push(() => !isNot);
    else if (word.startsWith('-') && !mute.has(word))
      tests.push(turned(asks[word]?.(value) ?? unknown, isNot));
    if (word.startsWith('-') && word !== '--syn') at += 1;
    isNot = false;
  }
  return { tests, target };
}

const unknown: Test = () => null;

function turned(test: Test, isNot: boolean): Test {
  if (!isNot) return test;
  return (packet) => {
    const said = test(packet);
    return said === null ? null : !said;
  };
}

function targetOf(word: string, name: string): Target | null {
  switch (name) {
    case 'ACCEPT':
      return { kind: 'accept' };
    case 'DROP':
    case 'REJECT':
      return { kind: 'drop' };
    case 'RETURN':
      return { kind: 'return' };
    // Targets of modules that let the packet go on.
    case 'LOG':
    case 'NFLOG':
    case 'MARK':
    case 'CONNMARK':
    case 'TCPMSS':
      return null;
    default:
      return { kind: word === '-g' ? 'goto' : 'jump', chain: name };
  }
}

/** A name that ends in a plus is every name that begins so. */
function isInterface(value: string, packet: Packet): boolean {
  return value.endsWith('+') ? packet.interface.startsWith(value.slice(0, -1)) : packet.interface === value;
}

/** `21,50000:50099`. */
function isAmong(value: string, port: number): boolean {
  return value.split(',').some((part) => {
    const [from = '', to = from] = part.split(':');
    return port >= Number(from) && port <= Number(to);
  });
}
