import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type ContactFrame, type ContactSheetPaper, planContactSheet } from './index.ts';
import { deviceColour, drawnPages, hasPoppler, said } from './testing/poppler.ts';

const folder = mkdtempSync(join(tmpdir(), 'setside-contact-'));
const file = join(folder, 'sheet.pdf');
afterAll(() => rmSync(folder, { recursive: true }));

const plain = (name: string, more: Partial<ContactFrame> = {}): ContactFrame => ({
  id: name,
  name,
  lines: ['14:02:11'],
  mark: 'none',
  standing: 'good',
  pins: [],
  aspect: 1.5,
  why: '',
  ...more,
});
const long = `${'Kanne_von_der_Seite_mit_langem_Namen_'.repeat(4)}0012.DNG`;
const frames: ContactFrame[] = [
  plain('QMST0003.DNG', { mark: 'select', standing: 'doubt', pins: [{ name: '1', x: 0.3, y: 0.4 }] }),
  plain('QMST0004.DNG', { mark: 'alternate', standing: 'bad', aspect: 2 / 3 }),
  plain('QMST0005.DNG', { mark: 'out', standing: 'unknown' }),
  plain('QMST0006.DNG', { standing: 'accepted', aspect: null, why: 'Not rendered yet' }),
  plain(long),
  ...Array.from({ length: 30 }, (_, at) => plain(`QMST${String(at + 20).padStart(4, '0')}.DNG`)),
];
const jpegs = new Map<string, Buffer>();
const asked: { id: string; widthPx: number }[] = [];
const sheet: ContactSheetPaper = {
  title: 'Contact sheet: QM-26',
  lead: ['For Quillmere Ceramics', '38 frames'],
  size: 'a4',
  columns: 4,
  sections: [
    {
      name: 'Teapot',
      heroes: [plain('QMST0009.DNG', { mark: 'hero' }), plain('QMST0007.DNG', { mark: 'hero' })],
      frames,
      remarks: [{ lead: '1  QMST0003.DNG, Client', text: 'The handle wants to come to the front.' }],
    },
    { name: 'Кружка', heroes: [], frames: [plain('שלום.DNG')], remarks: [] },
  ],
  written: 'As it stood on 2026-11-30.',
  atMs: Date.UTC(2026, 10, 30),
  picture: async ({ id, aspect }, widthPx) => {
    asked.push({ id, widthPx });
    const key = `${aspect}`;
    const known = jpegs.get(key);
    if (known !== undefined) return known;
    const [width, height] = [240, Math.round(240 / (aspect ?? 1))];
    const jpeg = await sharp({ create: { width, height, channels: 3, background: '#c04030' } })
      .jpeg()
      .toBuffer();
    jpegs.set(key, jpeg);
    return jpeg;
  },
};

async function whole(of: ContactSheetPaper): Promise<Buffer> {
  const parts: Uint8Array[] = [];
  for await (const part of (await planContactSheet(of)).parts()) parts.push(part);
  return Buffer.concat(parts);
}

let bytes: Buffer = Buffer.alloc(0);
beforeAll(async () => {
  bytes = await whole(sheet);
  writeFileSync(file, bytes);
});

test.skipIf(!hasPoppler)('poppler finds the pages that were planned, and their size', async () => {
  const info = said('pdfinfo', file);
  const { pages } = await planContactSheet(sheet);
  expect(pages).toBeGreaterThan(1);
  expect(info).toMatch(new RegExp(`^Pages: +${pages}$`, 'm'));
  expect(info).toMatch(/^Page size: +595\.28 x 841\.89 pts \(A4\)$/m);
  const letter = join(folder, 'letter.pdf');
  writeFileSync(letter, await whole({ ...sheet, size: 'letter', columns: 6 }));
  expect(said('pdfinfo', letter)).toMatch(/^Page size: +612 x 792 pts \(letter\)$/m);
});

test.skipIf(!hasPoppler)(
  'poppler finds all type embedded, and every picture in a space with a profile, as it was given',
  () => {
    const fonts = said('pdffonts', file).trim().split('\n').slice(2);
    expect(fonts.length).toBeGreaterThan(1);
    for (const row of fonts) expect(row).toMatch(/FiraSans.* yes yes yes /);
    const pictures = said('pdfimages', '-list', file).trim().split('\n').slice(2);
    expect(pictures).toHaveLength(37);
    // page num type width height color comp bpc enc …
    for (const row of pictures) expect(row).toMatch(/image +240 +\d+ +icc +3 +8 +jpeg +no/);
    said('pdfimages', '-j', file, join(folder, 'out'));
    expect(readFileSync(join(folder, 'out-000.jpg')).equals(jpegs.get('1.5') ?? Buffer.alloc(0))).toBe(true);
  },
);

test.skipIf(!hasPoppler)(
  'text can be taken out: heroes first and in their order, then the others as they were taken',
  () => {
    const pages = said('pdftotext', file, '-').split('\f');
    const text = pages.join('\n');
    const order = ['QMST0009', 'QMST0007', 'QMST0003', 'QMST0004', 'QMST0005', 'QMST0049'];
    const places = order.map((name) => text.indexOf(name));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
    expect(text).toContain('The handle wants to come to the front.');
    expect(text).toContain('Not rendered yet');
    expect(text.match(/Кружка/g)).toHaveLength(1);
    for (const [index, page] of pages.slice(0, -1).entries())
      expect(page).toContain(`${index + 1} of ${pages.length - 1}`);
  },
);

test.skipIf(!hasPoppler)(
  'a name is printed to its last letter, however long; letters the type does not have are told by their code points',
  () => {
    const text = said('pdftotext', file, '-');
    expect(text.replace(/\s/g, '')).toContain(long);
    expect(text).toContain('¤¤¤¤.DNG');
    expect(text.replace(/\s+/g, ' ')).toContain('U+05E9, U+05DC, U+05D5, U+05DD');
    // Only where they stand.
    expect(text.match(/U\+05E9/g)).toHaveLength(1);
  },
);

test('no colour is that of a device', async () => {
  const drawn = drawnPages(bytes);
  expect(drawn.length).toBe((await planContactSheet(sheet)).pages);
  for (const page of drawn) expect(page).not.toMatch(deviceColour);
  expect(bytes.toString('latin1')).not.toContain('DeviceRGB');
});

test('the same values and pictures give the same bytes', async () => {
  expect((await whole(sheet)).equals(bytes)).toBe(true);
});

test('pictures are asked for one after the other, as large as they are printed: a hero larger', async () => {
  const hero = asked.find(({ id }) => id === 'QMST0009.DNG')?.widthPx ?? 0;
  const small = asked.find(({ id }) => id === 'QMST0005.DNG')?.widthPx ?? 0;
  // Four columns on 523 pt: 123 pt less 10 for the frame of a mark at 220 to the inch (by hand).
  expect(small).toBe(Math.ceil((((595.28 - 72 - 30) / 4 - 10) / 72) * 220));
  expect(hero).toBeGreaterThan(1.9 * small);
});

test('who goes away in the middle ends it: no further picture is asked for', async () => {
  asked.length = 0;
  const parts = (await planContactSheet(sheet)).parts();
  await parts.next();
  await parts.return(undefined);
  expect(asked.length).toBeLessThanOrEqual(2);
});

test('of hundreds of frames no more than one picture is held, and each is told', async () => {
  const picture = await sharp({ create: { width: 300, height: 200, channels: 3, background: '#777777' } })
    .jpeg()
    .toBuffer();
  const many = Array.from({ length: 500 }, (_, at) => plain(`F${at}.DNG`));
  let out = 0;
  let given = 0;
  let mostHeld = 0;
  const told: number[] = [];
  const big = await planContactSheet({
    ...sheet,
    columns: 6,
    sections: [{ name: 'All', heroes: [], frames: many, remarks: [] }],
    picture: async () => {
      mostHeld = Math.max(mostHeld, given - out);
      given += picture.length;
      return picture;
    },
    onFrame: (done) => told.push(done),
  });
  for await (const part of big.parts()) out += part.length;
  expect(out).toBeGreaterThan(500 * picture.length);
  // What had been given and not taken away before the next was asked for.
  expect(mostHeld).toBeLessThan(2 * picture.length);
  expect(told.at(-1)).toBe(500);
});
