import type { Finding } from '../facts/index.ts';

/** So many are named; the rest is counted. */
const namedMax = 3;

/**
 * Findings of one code as one finding, to be said in one sentence: where their figures differ they stand beside each
 * other (`cam1 and cam2`, `5 and 12`), and `merged` says how many they are. One alone stays as it is. `findings` holds
 * at least one; they are of one code.
 */
export function mergeFindings(findings: readonly [Finding, ...Finding[]]): Finding {
  const [first] = findings;
  if (findings.length === 1) return first;
  const args: Record<string, string | number> = { merged: findings.length };
  for (const [name, value] of Object.entries(first.args)) {
    const values = [...new Set(findings.map((finding) => finding.args[name] ?? ''))];
    args[name] = values.length === 1 ? value : besideEachOther(values.map(String));
  }
  return { code: first.code, args };
}

function besideEachOther(words: readonly string[]): string {
  const named = words.length <= namedMax ? words : words.slice(0, namedMax - 1);
  const last = words.length <= namedMax ? named.at(-1) : `${words.length - named.length} more`;
  const before = words.length <= namedMax ? named.slice(0, -1) : named;
  return `${before.join(', ')} and ${last}`;
}
