import { expect, test } from 'vitest';
import { type BagListing, infoText, judgeSums, manifestText, pathInBag, readBag } from './index.ts';
import { parseInfo } from './info.ts';
import { decodedPath, encodedPath } from './path-in-bag.ts';

const sum = 'ab'.repeat(32);

/** A bag of version 1.0 with these payload files of 3 bytes, and the text of its only manifest. */
function read(paths: readonly string[], manifest: string, more: Readonly<Record<string, string>> = {}) {
  const texts: Readonly<Record<string, string>> = {
    'bagit.txt': 'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n',
    'manifest-sha256.txt': manifest,
    ...more,
  };
  const files = new Map([...Object.keys(texts), ...paths].map((path) => [path, { bytes: 3 }]));
  const listing: BagListing = { files, folders: new Set(['data']), others: [] };
  return readBag(listing, (name) => texts[name] ?? null);
}

function codes({ findings }: ReturnType<typeof readBag>): string[] {
  return findings.map(({ weight, finding }) => `${weight} ${finding.code}`);
}

// RFC 8493, section 2.1.3: CR, LF and % are percent-encoded in a manifest, and nothing else.
test('a path in a manifest has CR, LF and % encoded, and nothing else', () => {
  expect(encodedPath('data/a\rb\nc%d e ü')).toBe('data/a%0Db%0Ac%25d e ü');
  for (const path of ['data/50%25.jpg', 'data/a\r\n%', 'data/%41'])
    expect(decodedPath(encodedPath(path))).toBe(path);
  expect(decodedPath('data/%41%20b')).toBe('data/%41%20b');
});

// RFC 8493, section 5: absolute paths, `..`, `~`; the words of Windows from the conformance suite.
test.each([
  ['/etc/passwd', 'absolute'],
  ['\\\\server\\share', 'absolute'],
  ['~/x', 'home'],
  ['C:/x', 'drive'],
  ['%HomeDrive%\\x', 'variable'],
  ['data/../../x', 'climbs'],
  ['data\\..\\..\\x', 'climbs'],
  ['.', 'empty'],
  ['data/a\0b', 'control'],
])('a path that leads out is refused (%#)', (text, why) => {
  expect(pathInBag(text)).toBe(why);
});

test('dots in a name are no way out', () => {
  expect(pathInBag('data/..a/b...c')).toEqual({ path: 'data/..a/b...c', tidied: false });
});

test('a per cent sign that the maker did not encode is found as it is written', () => {
  expect(codes(read(['data/a%25.jpg'], `${sum}  data/a%25.jpg\n`))).toEqual([]);
  expect(codes(read(['data/a%.jpg'], `${sum}  data/a%25.jpg\n`))).toEqual([]);
});

test('a name whose letters the disk puts together otherwise is found, and said', () => {
  expect(codes(read(['data/u\u0308.jpg'], `${sum}  data/\u00fc.jpg\n`))).toContain(
    'warning bag.path-composed',
  );
});

// RFC 8493, section 2.1.3. The suite's bags for this are invalid for other reasons too.
test('since 1.0 every manifest lists every file, once, and capitals count', () => {
  const old = { 'bagit.txt': 'BagIt-Version: 0.97\nTag-File-Character-Encoding: UTF-8\n' };
  const twice = `${sum}  data/a\n${sum}  data/a\n`;
  expect(codes(read(['data/a'], twice))).toEqual(['bad bag.listed-twice']);
  expect(codes(read(['data/a'], twice, old))).toEqual(['warning bag.listed-twice']);
  const capitals = `${sum}  data/a\n${sum}  data/A\n`;
  expect(codes(read(['data/a'], capitals))).toEqual(['bad bag.missing']);
  expect(codes(read(['data/a'], capitals, old))).toEqual(['warning bag.capitals']);
  const both = `${sum}  data/a\n${sum}  data/b\n`;
  const second = { 'manifest-md5.txt': `${'ab'.repeat(16)}  data/a\n` };
  expect(codes(read(['data/a', 'data/b'], both, second))).toEqual(['bad bag.unlisted']);
  expect(codes(read(['data/a', 'data/b'], both, { ...old, ...second }))).toEqual([]);
});

test('checksums of a kind that nobody knows here prove nothing', () => {
  expect(codes(read(['data/a'], `${sum}  data/a\n`, { 'manifest-whirl9.txt': 'ab  data/a\n' }))).toContain(
    'bad bag.algorithm',
  );
});

// RFC 8493, section 2.2.3: a bag whose fetch.txt names files that are not there is not complete.
test('what is still to be fetched is missing', () => {
  const bag = read(['data/a'], `${sum}  data/a\n`, { 'fetch.txt': 'https://example.org/b 3 data/b\n' });
  expect(codes(bag)).toContain('bad bag.not-fetched');
});

test('an address to fetch leads nowhere out of the bag', () => {
  const bag = read(['data/a'], `${sum}  data/a\n`, { 'fetch.txt': 'https://example.org/b - ../b\n' });
  expect(codes(bag)).toContain('bad bag.path');
});

test.each([
  ['3.1', []],
  ['4.1', ['bad bag.oxum']],
  ['3.2', ['bad bag.oxum']],
  ['three', ['bad bag.oxum-unread']],
])('Payload-Oxum %s of one file with 3 bytes gives %j', (oxum, expected) => {
  const info = { 'bag-info.txt': `Payload-Oxum: ${oxum}\n` };
  expect(codes(read(['data/a'], `${sum}  data/a\n`, info))).toEqual(expected);
});

test('a line of bag-info.txt that begins with a blank goes on with the one before', () => {
  expect(parseInfo('External-Description: mugs\n  and jugs\r\nContact-Name: A\n').fields).toEqual([
    { label: 'External-Description', value: 'mugs and jugs' },
    { label: 'Contact-Name', value: 'A' },
  ]);
  expect(infoText([{ label: 'A', value: 'b\nPayload-Oxum: 1.1' }])).toBe('A: b Payload-Oxum: 1.1\n');
});

test('a file that was not read is not good', () => {
  const { claims } = read(['data/a'], `${sum}  data/a\n`);
  expect(judgeSums(claims, new Map([['data/a', { sha256: sum }]]))).toEqual([]);
  for (const sums of [new Map(), new Map([['data/a', { why: 'EIO' }]]), new Map([['data/a', {}]])])
    expect(judgeSums(claims, sums)).toHaveLength(1);
});

test('a manifest is in the order of its paths', () => {
  const rows = ['data/b', 'data/a'].map((path) => ({ path, checksum: 'ff' }));
  expect(manifestText(rows)).toBe('ff  data/a\nff  data/b\n');
});
