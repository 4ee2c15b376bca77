import { fieldsOf, listOf, numberOf, textOf } from '../reading/json.ts';
import { matchTest, verdictMapRules } from './nft-match.ts';
import type { Chain, Rule, RuleSet, Target, Test } from './rule-set.ts';

/** The families whose chains IPv4 packets meet: cameras speak it, and a chain of `ip6` says nothing of them. */
const families: ReadonlySet<string> = new Set(['ip', 'inet']);

/** A rule set as `nft -j list ruleset` prints it (libnftables-json(5)), with what it cannot say of itself. */
export interface NftRules {
  readonly set: RuleSet;
  /** Tables whose rules iptables wrote in a form that nft cannot print in full: `ip filter`. Ask iptables-save for these. */
  readonly halfTold: readonly string[];
}

/** The chains that a packet to this computer meets. A text that is none gives null. */
export function parseNft(text: string): NftRules | null {
  const listed = listOf(fieldsOf(listOf(text)[0]).nftables);
  if (listed.length === 0) return null;
  const sets = namedSets(listed);
  const halfTold = new Set<string>();
  const rules = new Map<string, Rule[]>();
  for (const entry of listed) {
    const rule = fieldsOf(entry).rule;
    const table = tableOf(rule);
    if (rule === undefined || !families.has(textOf(rule, 'family') ?? '')) continue;
    const expressions = listOf(fieldsOf(rule).expr);
    if (expressions.some((each) => fieldsOf(each).xt !== undefined)) halfTold.add(table);
    const name = `${table} ${textOf(rule, 'chain')}`;
    rules.set(name, [...(rules.get(name) ?? []), ...rulesOf(expressions, sets.get(table) ?? new Map())]);
  }
  const chains = listed.flatMap((entry) => chainOf(fieldsOf(entry).chain, rules));
  return { set: chains, halfTold: [...halfTold] };
}

function chainOf(chain: unknown, rules: ReadonlyMap<string, readonly Rule[]>): Chain[] {
  if (!families.has(textOf(chain, 'family') ?? '')) return [];
  const table = tableOf(chain);
  const name = `${table} ${textOf(chain, 'name')}`;
  const hook = textOf(chain, 'hook');
  // Chains of other hooks never see what comes in; prerouting may send elsewhere, which is not read here.
  if (hook !== null && hook !== 'input') return [];
  return [
    {
      name,
      table,
      hook:
        hook === null
          ? null
          : {
              priority: numberOf(chain, 'prio') ?? 0,
              policy: textOf(chain, 'policy') === 'drop' ? 'drop' : 'accept',
            },
      rules: rules.get(name) ?? [],
    },
  ];
}

function tableOf(part: unknown): string {
  return `${textOf(part, 'family')} ${textOf(part, 'table')}`;
}

/** Elements of the named sets, by table and name. */
function namedSets(listed: readonly unknown[]): Map<string, Map<string, readonly unknown[]>> {
  const sets = new Map<string, Map<string, readonly unknown[]>>();
  for (const entry of listed) {
    const set = fieldsOf(entry).set ?? fieldsOf(entry).map;
    const name = textOf(set, 'name');
    if (set === undefined || name === null) continue;
    const table = sets.get(tableOf(set)) ?? new Map<string, readonly unknown[]>();
    sets.set(tableOf(set), table.set(name, listOf(fieldsOf(set).elem)));
  }
  return sets;
}

/** One rule of nft may be several of ours: a verdict map is one for each of its entries. */
function rulesOf(expressions: readonly unknown[], sets: ReadonlyMap<string, readonly unknown[]>): Rule[] {
  const tests: Test[] = [];
  for (const expression of expressions) {
    const [kind, value] = Object.entries(fieldsOf(expression))[0] ?? ['', null];
    if (kind === 'match') tests.push(matchTest(value, sets));
    else if (kind === 'vmap')
      return verdictMapRules(value, sets, targetOf).map((rule) => ({
        ...rule,
        tests: [...tests, ...rule.tests],
      }));
    // Both ask what is not known of one packet; so may a match of iptables that nft does not print.
    else if (kind === 'limit' || kind === 'quota' || kind === 'connlimit') tests.push(() => null);
    else if (kind === 'xt') {
      const target = targetOfXt(value);
      if (target !== undefined) return [{ tests, target }];
      tests.push(() => null);
    } else {
      const target = targetOf(kind, value);
      if (target !== null) return [{ tests, target }];
    }
  }
  return [{ tests, target: null }];
}

/** Undefined for a match, null for a target that decides nothing. */
function targetOfXt(value: unknown): Target | null | undefined {
  if (textOf(value, 'type') !== 'target') return undefined;
  return textOf(value, 'name') === 'REJECT' ? { kind: 'drop' } : null;
}

/** A rejected packet is as little let in as a dropped one; counters, logs and marks decide nothing. */
function targetOf(kind: string, value: unknown): Target | null {
  switch (kind) {
    case 'accept':
      return { kind: 'accept' };
    case 'drop':
    case 'reject':
      return { kind: 'drop' };
    case 'return':
      return { kind: 'return' };
    case 'jump':
    case 'goto':
      return { kind, chain: textOf(value, 'target') ?? '' };
    // Handed to a program, which may let it in.
    default:
      return null;
  }
}
