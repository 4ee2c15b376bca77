/** A packet that opens a TCP connection to this computer. */
export interface Packet {
  readonly interface: string;
  readonly source: string;
  readonly destination: string;
  readonly port: number;
}

/** Whether a packet meets a test; null where the rule asks something that is not known of it, such as chance or a rate. */
export type Test = (packet: Packet) => boolean | null;

export type Target =
  | { readonly kind: 'accept' | 'drop' | 'return' }
  | { readonly kind: 'jump' | 'goto'; readonly chain: string };

/** One rule: where all tests are met, the target, or on to the next rule where there is none. */
export interface Rule {
  readonly tests: readonly Test[];
  readonly target: Target | null;
}

export interface Chain {
  /** `inet filter input`: unique in the set. */
  readonly name: string;
  /** The table: chains are jumped to within it. */
  readonly table: string;
  /** Of a chain that the system asks about incoming packets; null of one that is only jumped to. */
  readonly hook: { readonly priority: number; readonly policy: 'accept' | 'drop' } | null;
  readonly rules: readonly Rule[];
}

export type RuleSet = readonly Chain[];

/** All tests together: false where one is, else null where one is not known. */
export function meets(rule: Rule, packet: Packet): boolean | null {
  let met: boolean | null = true;
  for (const test of rule.tests) {
    const said = test(packet);
    if (said === false) return false;
    if (said === null) met = null;
  }
  return met;
}
