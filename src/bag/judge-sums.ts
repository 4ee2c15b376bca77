import { type Algorithm, type BagFinding, bad, type Claim } from './shapes.ts';

/** Checksums read from one file, hexadecimal in small letters; or why it could not be read. */
export type SumsRead = Readonly<Partial<Record<Algorithm, string>>> | { readonly why: string };

/** Holds what the manifests claim against what was read. A file that was not read is never taken for good. */
export function judgeSums(claims: readonly Claim[], sums: ReadonlyMap<string, SumsRead>): BagFinding[] {
  const findings: BagFinding[] = [];
  for (const { path, algorithm, checksum, manifest } of claims) {
    const read = sums.get(path);
    if (read === undefined || 'why' in read)
      findings.push(bad('bag.unreadable', { path, why: read?.why ?? 'it was not read' }));
    else if (read[algorithm] !== checksum) findings.push(bad('bag.altered', { path, file: manifest }));
  }
  return findings;
}

/** Which checksums are to be read from each file. */
export function algorithmsByPath(claims: readonly Claim[]): ReadonlyMap<string, readonly Algorithm[]> {
  const wanted = new Map<string, Algorithm[]>();
  for (const { path, algorithm } of claims) {
    const before = wanted.get(path) ?? [];
    if (!before.includes(algorithm)) wanted.set(path, [...before, algorithm]);
  }
  return wanted;
}
