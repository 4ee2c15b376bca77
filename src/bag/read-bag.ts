import { type Declaration, parseDeclaration } from './declaration.ts';
import { parseFetch } from './fetch.ts';
import { parseInfo, parseOxum } from './info.ts';
import { manifestName } from './manifest.ts';
import { Places } from './places.ts';
import { type ManifestRead, readManifest } from './read-manifest.ts';
import { type BagFinding, type BagListing, bad, type Claim, warning } from './shapes.ts';

/** What a bag says of itself, before any byte of its payload was read. */
export interface BagRead {
  /** As declared, `1.0`; null where the declaration cannot be read. */
  readonly version: string | null;
  readonly claims: readonly Claim[];
  readonly findings: readonly BagFinding[];
  readonly payload: { readonly files: number; readonly bytes: number };
}

/** The text of a tag file at the top of the bag; null where it is not there or is not text in that encoding. */
export type TagText = (name: string, encoding: string) => string | null;

/**
 * Reads all that a bag claims and holds it against what is there (RFC 8493, section 3: is it complete?). The checksums of
 * `claims` are to be read afterwards and given to `judgeSums`. Throws nothing for what a bag holds.
 */
export function readBag(listing: BagListing, textOf: TagText): BagRead {
  const payload = [...listing.files].filter(([path]) => path.startsWith('data/'));
  const size = { files: payload.length, bytes: payload.reduce((sum, [, { bytes }]) => sum + bytes, 0) };
  const declared = declarationOf(listing, textOf);
  if ('finding' in declared) return { version: null, claims: [], findings: [declared], payload: size };
  const { major, minor, encoding } = declared;
  const findings: BagFinding[] = [];
  const version = `${major}.${minor}`;
  if (major > 1 || (major === 1 && minor > 0)) findings.push(bad('bag.version', { version }));
  if (!listing.folders.has('data')) findings.push(bad('bag.no-data'));
  for (const path of listing.others) findings.push(bad('bag.not-a-file', { path }));
  const isStrict = major >= 1;
  const places = new Places(listing.files.keys());
  const text = (name: string): string => {
    const found = textOf(name, encoding);
    if (found === null) findings.push(bad('bag.not-text', { file: name, encoding }));
    return found ?? '';
  };
  const manifests = [...listing.files.keys()]
    .sort()
    .map((name) => (name.includes('/') ? null : manifestName(name)))
    .filter((name) => name !== null)
    .map((name) => ({ name, read: readManifest(name, text(name.name), places, isStrict) }));
  for (const { read } of manifests) findings.push(...read.findings);
  const ofPayload = manifests.filter(({ name }) => name.kind === 'payload');
  if (ofPayload.length === 0) findings.push(bad('bag.no-manifest'));
  else
    findings.push(
      ...unlisted(
        ofPayload,
        payload.map(([path]) => path),
        isStrict,
      ),
    );
  if (listing.files.has('bag-info.txt')) findings.push(...infoFindings(text('bag-info.txt'), size));
  if (listing.files.has('fetch.txt')) findings.push(...fetchFindings(text('fetch.txt'), places));
  return { version, claims: manifests.flatMap(({ read }) => read.claims), findings, payload: size };
}

function declarationOf(listing: BagListing, textOf: TagText): Declaration | BagFinding {
  if (!listing.files.has('bagit.txt')) return bad('bag.no-declaration');
  const text = textOf('bagit.txt', 'UTF-8');
  return text === null
    ? bad('bag.not-text', { file: 'bagit.txt', encoding: 'UTF-8' })
    : parseDeclaration(text);
}

/** Since 1.0 every payload manifest lists every payload file; before, one of them was enough (RFC 8493, section 2.1.3). */
function unlisted(
  manifests: readonly { readonly name: { readonly name: string }; readonly read: ManifestRead }[],
  payload: readonly string[],
  isStrict: boolean,
): BagFinding[] {
  if (!isStrict) {
    const listed = new Set(manifests.flatMap(({ read }) => [...read.paths]));
    return payload.filter((path) => !listed.has(path)).map((path) => bad('bag.unlisted', { path }));
  }
  return manifests.flatMap(({ name, read }) =>
    payload
      .filter((path) => !read.paths.has(path))
      .map((path) => bad('bag.unlisted', { path, file: name.name })),
  );
}

function infoFindings(text: string, payload: BagRead['payload']): BagFinding[] {
  const { fields, unread } = parseInfo(text);
  const findings = unread.map((line) => bad('bag.line', { file: 'bag-info.txt', line }));
  const oxums = fields.filter(({ label }) => label.toLowerCase() === 'payload-oxum');
  if (oxums.length > 1) findings.push(bad('bag.oxum-twice'));
  for (const { value } of oxums) {
    const oxum = parseOxum(value);
    if (oxum === null) findings.push(bad('bag.oxum-unread', { value }));
    else if (oxum.bytes !== payload.bytes || oxum.files !== payload.files)
      findings.push(
        bad('bag.oxum', {
          expectedBytes: oxum.bytes,
          expectedFiles: oxum.files,
          bytes: payload.bytes,
          files: payload.files,
        }),
      );
  }
  return findings;
}

function fetchFindings(text: string, places: Places): BagFinding[] {
  const { lines, unread } = parseFetch(text);
  const findings = unread.map((line) => bad('bag.line', { file: 'fetch.txt', line }));
  for (const { text: written, address } of lines) {
    const place = places.of(written);
    if (typeof place === 'string')
      findings.push(bad('bag.path', { file: 'fetch.txt', line: 0, path: written, why: place }));
    else if (!place.path.startsWith('data/'))
      findings.push(bad('bag.not-payload', { file: 'fetch.txt', path: place.path }));
    else if (!place.isThere) findings.push(bad('bag.not-fetched', { path: place.path, address }));
    else findings.push(warning('bag.fetched', { path: place.path }));
  }
  return findings;
}
