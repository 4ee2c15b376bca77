import type { BagFinding } from './shapes.ts';

/**
 * Each fault once: a bag has a manifest for each algorithm, and what is wrong with a file is wrong by all of them. Findings that differ
 * in nothing but the list that told them become one, which names all of those.
 */
export function onceEach(findings: readonly BagFinding[]): readonly BagFinding[] {
  const found = new Map<string, { readonly first: BagFinding; readonly lists: Set<string> }>();
  for (const each of findings) {
    const { file, ...rest } = each.finding.args;
    const key = JSON.stringify([each.weight, each.finding.code, file === undefined, rest]);
    const known = found.get(key) ?? { first: each, lists: new Set() };
    if (file !== undefined) known.lists.add(String(file));
    found.set(key, known);
  }
  return [...found.values()].map(({ first, lists }) =>
    lists.size < 2
      ? first
      : {
          ...first,
          finding: { ...first.finding, args: { ...first.finding.args, file: [...lists].join(', ') } },
        },
  );
}
