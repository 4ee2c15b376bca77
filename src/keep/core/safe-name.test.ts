import fc from 'fast-check';
import { expect, test } from 'vitest';
import { originalPath } from './original-path.ts';
import { foldName, numberedName, safeName, safeNameBytesMax, splitName } from './safe-name.ts';

const byteLength = (text: string): number => new TextEncoder().encode(text).length;

test.each([
  'IMG_0001.DNG',
  'DSC-1.arw',
  'ein Krug.jpg',
  '壺.jpg',
  'a',
  '1',
  '_x',
  'x..y',
  'CONTAINER.txt',
  'com10.jpg',
])('K4.1 a good name stays as it is: %s', (name) => {
  expect(safeName(name)).toBe(name);
});

// Left column: what "Naming Files, Paths, and Namespaces" (Microsoft Learn) forbids, and what hides or misleads.
test.each([
  ['a<b>c:d"e/f\\g|h?i*j', 'a_b_c_d_e_f_g_h_i_j'],
  ['tab\tbell\u0007nul\u0000', 'tab_bell_nul_'],
  ['ends with a stop.', 'ends with a stop_'],
  ['ends with blanks  ', 'ends with blanks__'],
  ['CON', '_CON'],
  ['nul.txt', '_nul.txt'],
  ['COM1.DNG', '_COM1.DNG'],
  ['lpt\u00b9', '_lpt\u00b9'],
  ['aux .x', '_aux .x'],
  ['.hidden', '_hidden'],
  ['..', '__'],
  ['.', '_'],
  ['', '_'],
  ['txt.\u202egnp.exe', 'txt._gnp.exe'],
  ['lone\ud800', 'lone_'],
  ['Krug a\u0308.jpg', 'Krug \u00e4.jpg'],
])('K4.1 %j becomes %j', (name, safe) => {
  expect(safeName(name)).toBe(safe);
});

test('K4.1 the longest name stays, one byte more is cut with a mark and keeps its extension', () => {
  const longest = `${'x'.repeat(safeNameBytesMax - 4)}.DNG`;
  expect(safeName(longest)).toBe(longest);
  const cut = safeName(`x${longest}`);
  expect(byteLength(cut)).toBe(safeNameBytesMax);
  expect(cut).toMatch(/^x+~[0-9a-f]{8}\.DNG$/);
  expect(cut).not.toBe(safeName(`y${longest}`));
});

test('K4.1 any name becomes one that every rule allows, and a safe name is safe already', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (name) => {
      const safe = safeName(name);
      expect(safe).toBe(safeName(safe));
      expect(byteLength(safe)).toBeLessThanOrEqual(safeNameBytesMax);
      expect(safe).not.toMatch(/[<>:"/\\|?*\p{Cc}\p{Surrogate}]|[. ]$|^\.|^$/u);
      expect(safe).not.toMatch(/^(con|prn|aux|nul|com[0-9]|lpt[0-9])([. ]|$)/i);
    }),
  );
});

test('K4.1 an original lies below its camera, whatever the job, the camera and the path are called', () => {
  fc.assert(
    fc.property(
      fc.string(),
      fc.string(),
      fc.array(fc.string({ minLength: 1 }), { minLength: 1, maxLength: 16 }),
      (job, camera, parts) => {
        const { folder, name } = originalPath(job, camera, `/${parts.join('/')}`);
        const path = `${folder}/${name}`.split('/');
        expect(path[0]).toBe('jobs');
        expect(path[2]).toBe('originals');
        expect(path.length).toBeGreaterThanOrEqual(5);
        expect(path.every((part) => part !== '' && part !== '.' && part !== '..')).toBe(true);
      },
    ),
  );
});

test('K4.1 folders of the camera are kept, up to a length that every system takes', () => {
  expect(originalPath('QM-26', 'cam1', '/DCIM/100ABCDE/X.DNG')).toEqual({
    folder: 'jobs/QM-26/originals/cam1/DCIM/100ABCDE',
    name: 'X.DNG',
  });
  const deep = `/${Array.from({ length: 16 }, (_, i) => `${i}`.padEnd(100, 'd')).join('/')}/X.DNG`;
  expect(originalPath('QM-26', 'cam1', deep).folder).toMatch(
    /^jobs\/QM-26\/originals\/cam1\/deep~[0-9a-f]{8}$/,
  );
});

test('K4.2 names that some file system takes for one fold to one', () => {
  expect(foldName('IMG.DNG')).toBe(foldName('img.dng'));
  expect(foldName('a\u0308')).toBe(foldName('\u00c4'));
  expect(foldName('a')).not.toBe(foldName('b'));
});

test('K1.4 the number goes before the extension', () => {
  expect(numberedName('X.DNG', 2)).toBe('X (2).DNG');
  expect(numberedName('X', 3)).toBe('X (3)');
  expect(splitName('.x')).toEqual({ stem: '.x', extension: '' });
  expect(splitName('a.tar.gz')).toEqual({ stem: 'a.tar', extension: '.gz' });
});

test('a name that was Latin-1 on the wire lies on the disk as its writer meant it', () => {
  expect(safeName('gr\uEFFC\uEFDFe.jpg')).toBe('grüße.jpg');
  // 81 is nothing in Windows-1252.
  expect(safeName('a\uEF81.jpg')).toBe('a\ufffd.jpg');
});
