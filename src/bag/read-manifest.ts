import { isAlgorithm, type ManifestName, parseManifest } from './manifest.ts';
import type { Places } from './places.ts';
import { type BagFinding, bad, type Claim, checksumLetters, warning } from './shapes.ts';

/** What one manifest claims: every path that it lists, and a claim for each file that is there. */
export interface ManifestRead {
  readonly paths: ReadonlySet<string>;
  readonly claims: readonly Claim[];
  readonly findings: readonly BagFinding[];
}

interface Listed {
  readonly path: string;
  readonly checksum: string;
  readonly isThere: boolean;
}

/**
 * Reads one manifest. `isStrict` is version 1.0 and later: a file listed twice is wrong there and a warning before, and
 * so is one of which only another spelling in capitals is there (a bag made where capitals do not count).
 */
export function readManifest(
  { name, kind, algorithm }: ManifestName,
  text: string,
  places: Places,
  isStrict: boolean,
): ManifestRead {
  const findings: BagFinding[] = [];
  if (!isAlgorithm(algorithm))
    return { paths: new Set(), claims: [], findings: [bad('bag.algorithm', { manifest: name, algorithm })] };
  const { lines, unread } = parseManifest(text);
  for (const line of unread) findings.push(bad('bag.line', { file: name, line }));
  const listed = new Map<string, Listed>();
  for (const { number, checksum, text: written } of lines) {
    const place = places.of(written);
    if (typeof place === 'string') {
      findings.push(bad('bag.path', { file: name, line: number, path: written, why: place }));
      continue;
    }
    const { path, isThere } = place;
    if ((kind === 'payload') !== path.startsWith('data/')) {
      findings.push(bad(kind === 'payload' ? 'bag.not-payload' : 'bag.not-tag', { file: name, path }));
      continue;
    }
    if (checksum.length !== checksumLetters[algorithm]) {
      findings.push(bad('bag.line', { file: name, line: number }));
      continue;
    }
    if (place.tidied) findings.push(warning('bag.path-untidy', { file: name, path: written }));
    if (place.recomposed) findings.push(warning('bag.path-composed', { file: name, path }));
    const before = listed.get(path);
    if (before !== undefined) {
      const isSame = before.checksum === checksum;
      const args = { file: name, path };
      if (!isSame) findings.push(bad('bag.listed-otherwise', args));
      else findings.push(isStrict ? bad('bag.listed-twice', args) : warning('bag.listed-twice', args));
      continue;
    }
    listed.set(path, { path, checksum, isThere });
  }
  findings.push(...missingOf([...listed.values()], name, isStrict));
  const claims = [...listed.values()]
    .filter(({ isThere }) => isThere)
    .map(({ path, checksum }) => ({ path, algorithm, checksum, manifest: name }));
  return { paths: new Set(listed.keys()), claims, findings };
}

function missingOf(listed: readonly Listed[], file: string, isStrict: boolean): BagFinding[] {
  const sameLetters = new Map<string, Listed[]>();
  for (const each of listed) {
    const key = each.path.normalize('NFC').toLowerCase();
    sameLetters.set(key, [...(sameLetters.get(key) ?? []), each]);
  }
  const findings: BagFinding[] = [];
  for (const group of sameLetters.values()) {
    const there = group.find(({ isThere }) => isThere);
    for (const { path, checksum, isThere } of group) {
      if (isThere) continue;
      // The same bytes are here under the other spelling: nothing is lost.
      if (!isStrict && there?.checksum === checksum)
        findings.push(warning('bag.capitals', { path, other: there.path }));
      else findings.push(bad('bag.missing', { file, path }));
    }
    const [first, second] = group.filter((each) => each.isThere);
    if (first !== undefined && second !== undefined)
      findings.push(warning('bag.capitals', { path: first.path, other: second.path }));
  }
  return findings;
}
