import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { brokenLines } from './broken-lines.ts';
import { cameraSheetPdf } from './index.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'setside-type-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const hasPoppler = spawnSync('pdftotext', ['-v']).status === 0;
const printed = async (camera: string): Promise<{ text: string; fonts: string }> => {
  const file = join(folder, 'sheet.pdf');
  writeFileSync(file, await cameraSheetPdf({ camera, forms: [], written: 'now', atMs: 0 }));
  const said = (program: string, ...words: string[]): string =>
    spawnSync(program, words, { encoding: 'utf8' }).stdout;
  return { text: said('pdftotext', '-layout', file, '-'), fonts: said('pdffonts', file) };
};

test.skipIf(!hasPoppler)(
  'names of many scripts are printed in one line, and poppler reads them',
  async () => {
    const name = 'Łódź Ťapka Việt Съёмка Ђорђе Ґанок Δοκιμή ἀρχή';
    const { text, fonts } = await printed(name);
    expect(text).toContain(name);
    expect(text).not.toContain('¤');
    const rows = fonts.trim().split('\n').slice(2);
    expect(rows.length).toBeGreaterThanOrEqual(5);
    for (const row of rows) expect(row).toMatch(/FiraSans-(Regular|Medium) .* yes yes yes /);
  },
);

test.skipIf(!hasPoppler)(
  'marks that come after their letters, as on a Mac’s disk, print like the letters',
  async () => {
    const { text } = await printed('Zürich Съёмка'.normalize('NFD'));
    expect(text).toContain('Zürich Съёмка'.normalize('NFC'));
  },
);

test.skipIf(!hasPoppler)(
  'what no font of ours has stands as a sign, and the foot says what it was',
  async () => {
    const { text } = await printed('中 קוף');
    expect(text).toContain('¤ ¤¤¤');
    // Code points after the Unicode Standard, blocks CJK Unified Ideographs and Hebrew.
    expect(text).toMatch(/¤ stands for .*U\+4E2D, U\+05E7, U\+05D5, U\+05E3\./);
  },
);

test.skipIf(!hasPoppler)('a picture sign of several code points is one letter', async () => {
  const { text } = await printed('left \u{1F469}\u{200D}\u{1F4BB} right \u2764\uFE0F');
  expect(text).toContain('left ¤ right ¤');
  expect(text).toContain('U+1F469 U+1F4BB, U+2764');
});

test('lines break at blanks, and inside a word only where it is too wide alone', () => {
  const broken = (text: string): readonly string[] => brokenLines(text, (line) => line.length <= 5);
  expect(broken('one two three')).toEqual(['one', 'two', 'three']);
  expect(broken('a bc d')).toEqual(['a bc', 'd']);
  expect(broken('ab abcdefgh i')).toEqual(['ab', 'abcde', 'fgh i']);
  expect(broken('')).toEqual(['']);
});
