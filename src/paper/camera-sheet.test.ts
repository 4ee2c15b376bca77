import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readIccProfile } from '../colour/index.ts';
import { cameraForms, type SheetStation } from '../words/index.ts';
import { cameraSheetPdf } from './index.ts';
import { deviceColour, hasPoppler, said, streamsOf } from './testing/poppler.ts';

/** Invented: each line of eight has other shares of wide and narrow signs. */
const pairs = ['11', 'D1', 'DD', 'A7'].flatMap((pair) => Array<string>(8).fill(pair));
const station: SheetStation = {
  addresses: [
    { address: '192.168.7.20', family: 'IPv4', private: true, beside: false },
    { address: '10.20.30.40', family: 'IPv4', private: true, beside: false },
  ],
  doors: [
    { name: 'ftp', port: 2121, trouble: null },
    { name: 'ftps', port: 2990, trouble: null },
    {
      name: 'sftp',
      port: 2222,
      trouble: null,
      hostKeys: [{ kind: 'ed25519', fingerprint: `SHA256:${'a'.repeat(43)}` }],
    },
  ],
  passive: { from: 50_000, to: 50_099 },
  encryptedOnly: false,
  certificate: { name: 'Setside of 2026', fingerprint: pairs.join(':') },
};
const camera = {
  name: 'cam1',
  user: 'cam1',
  password: 'kmwtrhbfxpzdctgn',
  protocols: ['ftp', 'ftps', 'sftp'] as const,
  ended: false,
};

let folder = '';
let file = '';
let bytes: Uint8Array = new Uint8Array();
const write = (): Promise<Uint8Array> =>
  cameraSheetPdf({
    camera: camera.name,
    forms: cameraForms(camera, station),
    written: 'As it stood on 2026-11-30.',
    atMs: Date.UTC(2026, 10, 30),
  });
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'setside-paper-'));
  file = join(folder, 'sheet.pdf');
  bytes = await write();
  writeFileSync(file, bytes);
});
afterAll(() => rmSync(folder, { recursive: true }));

test.skipIf(!hasPoppler)('poppler finds three pages of A4, a title and the moment of writing', () => {
  const info = said('pdfinfo', '-rawdates', file);
  expect(info).toMatch(/^Pages: +3$/m);
  expect(info).toMatch(/^Title: +Camera sheet: cam1$/m);
  expect(info).toMatch(/^Page size: +595\.28 x 841\.89 pts \(A4\)$/m);
  expect(info).toMatch(/^CreationDate: +D:20261130/m);
});

test.skipIf(!hasPoppler)('poppler finds all type embedded, in subsets, with its characters named', () => {
  const rows = said('pdffonts', file).trim().split('\n').slice(2);
  expect(rows).toHaveLength(3);
  for (const row of rows) expect(row).toMatch(/Fira(Sans-(Regular|Medium)|Mono-Medium) .* yes yes yes /);
});

test.skipIf(!hasPoppler)(
  'what is compared letter by letter is in type of one width: all pairs stand in columns',
  () => {
    const words = said('pdftotext', '-bbox', '-f', '2', '-l', '2', file, '-');
    const pairs = [...words.matchAll(/xMin="([\d.]+)"[^>]*xMax="([\d.]+)"[^>]*>([0-9A-F]{2}:[^<]*)</g)];
    expect(pairs).toHaveLength(4);
    const wide = pairs.map(([, from, to, said = '']) =>
      ((Number(to) - Number(from)) / said.length).toFixed(1),
    );
    // The fingerprint has narrow and wide signs in uneven numbers a line; in one width the measure a sign is the same.
    expect(new Set(wide).size).toBe(1);
  },
);

test.skipIf(!hasPoppler)('poppler reads what is to be entered, in the order a camera asks for it', () => {
  const [ftp = '', ftps = '', sftp = ''] = said('pdftotext', '-layout', file, '-').split('\f');
  const order = ['Protocol +FTP$', 'Server address +192\\.168\\.7\\.20$', 'Port +2121$', 'User +cam1$'];
  const rest = ['Password +kmwt +rhbf +xpzd +ctgn$', 'Passive mode +on$', 'Folder +/$'];
  expect(ftp).toMatch(new RegExp([...order, ...rest].join('[^]*?'), 'm'));
  expect(ftp).toMatch(/One\s+of\s+these\s+sheets\s+is\s+enough/);
  expect([ftp, ftps, sftp].map((page) => /Sheet \d of \d/.exec(page)?.[0])).toEqual([
    'Sheet 1 of 3',
    'Sheet 2 of 3',
    'Sheet 3 of 3',
  ]);
  expect(ftp).toContain('10.20.30.40');
  expect(ftp).toContain('Plain FTP sends the password in clear');
  expect(ftps).toMatch(/Protocol +FTPS, explicit$/m);
  expect(ftps).toContain('implicit, if the camera asks for that: 2990');
  expect(ftps.match(/(11|D1|DD|A7):?/g)?.length).toBeGreaterThanOrEqual(32);
  expect(sftp).toMatch(/Port +2222$/m);
  expect(sftp).toContain('a'.repeat(43));
  expect(sftp).not.toContain('Passive');
});

test('no colour is that of a device: all are set in one space with a profile, which is sRGB', () => {
  const streams = streamsOf(bytes);
  const drawn = streams.map((stream) => stream.toString('latin1')).filter((text) => /\bBT\b/.test(text));
  expect(drawn).toHaveLength(3);
  for (const page of drawn) {
    expect(page).not.toMatch(deviceColour);
    expect(page.indexOf('/Paper cs')).toBeGreaterThanOrEqual(0);
    expect(page.indexOf('/Paper cs')).toBeLessThan(page.indexOf('BT'));
  }
  const text = Buffer.from(bytes).toString('latin1');
  expect(text).toMatch(/\/OutputIntents \[/);
  expect(text.match(/\/Paper \[\/ICCBased \d+ 0 R\]/g)).toHaveLength(3);
  const profiles = streams.filter((stream) => stream.subarray(36, 40).toString('latin1') === 'acsp');
  expect(profiles).toHaveLength(2);
  // IEC 61966-2-1 colourants under D50, as the ICC's own sRGB profiles have them: red X, green Y, blue Z (from memory).
  for (const profile of profiles) {
    const matrix = readIccProfile(profile)?.matrix ?? [];
    expect([matrix[0], matrix[4], matrix[8]].map((each) => each?.toFixed(2))).toEqual([
      '0.44',
      '0.72',
      '0.71',
    ]);
  }
});

test('the same values give the same bytes', async () => {
  expect(Buffer.from(await write()).equals(Buffer.from(bytes))).toBe(true);
});

test('a camera that no open door lets in is told so on paper', async () => {
  const none = await cameraSheetPdf({ camera: 'cam9', forms: [], written: '', atMs: 0 });
  writeFileSync(join(folder, 'none.pdf'), none);
  if (!hasPoppler) return;
  expect(said('pdftotext', join(folder, 'none.pdf'), '-')).toContain('none of the doors');
  expect(readFileSync(join(folder, 'none.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
});
