import { describe, expect, test } from 'vitest';
import { applyJobChoice } from '../apply-choice.ts';
import { type Job, type Jobs, plainShot } from '../job.ts';
import {
  badLinesMax,
  columnsMax,
  fieldCharactersMax,
  nameCharactersMax,
  shotListBytesMax,
  shotListLinesMax,
  shotsMax,
} from '../limits.ts';
import { planNewJob } from '../plan-job.ts';
import { delimiterOf, listBody, type Row } from './csv.ts';
import { decodeText } from './decode-text.ts';
import { planImport } from './plan-import.ts';
import { readShotList } from './read-shot-list.ts';

/** Rows as a reader of CSV gives them, the first being line 1. */
const rows = (...lines: readonly (readonly string[])[]): Row[] =>
  lines.map((cells, index) => ({ line: index + 1, cells }));

describe('bytes to text', () => {
  // "Krüge, 5 €" written in each encoding by hand: Unicode 15 table 3-7 (UTF-8), WHATWG index windows-1252.
  const utf8 = [0x4b, 0x72, 0xc3, 0xbc, 0x67, 0x65, 0x2c, 0x20, 0x35, 0x20, 0xe2, 0x82, 0xac];
  const cp1252 = [0x4b, 0x72, 0xfc, 0x67, 0x65, 0x2c, 0x20, 0x35, 0x20, 0x80];
  const utf16 = [0x4b, 0x72, 0xfc, 0x67, 0x65, 0x2c, 0x20, 0x35, 0x20, 0x20ac];
  const little = utf16.flatMap((unit) => [unit & 0xff, unit >> 8]);
  const big = utf16.flatMap((unit) => [unit >> 8, unit & 0xff]);

  test.each([
    ['UTF-8', utf8, 'utf-8', false],
    ['UTF-8 with a mark', [0xef, 0xbb, 0xbf, ...utf8], 'utf-8', false],
    ['UTF-16, little end first', [0xff, 0xfe, ...little], 'utf-16le', false],
    ['UTF-16, big end first', [0xfe, 0xff, ...big], 'utf-16be', false],
    ['Windows-1252, which is guessed and said to be', cp1252, 'windows-1252', true],
  ])('%s', (_name, bytes, encoding, guessed) => {
    expect(decodeText(Uint8Array.from(bytes))).toEqual({ text: 'Krüge, 5 €', encoding, guessed });
  });

  test('line ends of every kind become LF', () => {
    expect(decodeText(new TextEncoder().encode('a\r\nb\rc\nd')).text).toBe('a\nb\nc\nd');
  });

  test.each([
    ['UTF-16 without a mark, or a picture', [0x4b, 0, 0x72, 0]],
    ['UTF-16 cut in the middle of a character', [0xff, 0xfe, 0x4b]],
    ['half a pair of surrogates', [0xff, 0xfe, 0x00, 0xd8]],
  ])('%s is refused', (_name, bytes) => {
    expect(() => decodeText(Uint8Array.from(bytes))).toThrow(expect.objectContaining({ code: 'bad-text' }));
  });

  // First bytes from PKWARE's APPNOTE 4.3.7 and MS-CFB section 2.2.
  test.each([
    ['a packed one', [0x50, 0x4b, 0x03, 0x04, 0x14, 0, 0, 0]],
    ['an older one', [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]],
  ])('a spreadsheet’s own file is called one: %s', (_name, bytes) => {
    expect(() => decodeText(Uint8Array.from(bytes))).toThrow(
      expect.objectContaining({ code: 'spreadsheet-file' }),
    );
  });

  test('a file has the most bytes there may be and not one more', () => {
    expect(decodeText(new Uint8Array(shotListBytesMax).fill(0x20)).text).toHaveLength(shotListBytesMax);
    expect(() => decodeText(new Uint8Array(shotListBytesMax + 1).fill(0x20))).toThrow(
      expect.objectContaining({ code: 'bad-text' }),
    );
  });
});

describe('columns', () => {
  test('are found by name in any order and spelling', () => {
    const { shots, columns, unknownColumns } = readShotList(
      rows(['Price', ' REFERENCE_frame', 'Beschreibung', 'Shot Name'], ['9', 'f1', 'blue', 'Mug']),
    );
    expect(columns).toEqual(['name', 'description', 'reference']);
    expect(unknownColumns).toEqual(['Price']);
    expect(shots).toEqual([
      { line: 2, id: null, name: 'Mug', says: { description: 'blue', reference: 'f1' } },
    ]);
  });

  test('where one says nothing to us, those that there are besides are named; else nothing is said', () => {
    const { findings } = readShotList(
      rows(['name', 'heroes', 'wanted', 'delivery'], ['Mug', '2', '3', 'Web']),
    );
    expect(findings).toMatchObject([{ code: 'shot-list.columns-there-are' }]);
    expect(findings[0]?.args.names).toMatch(/^id, description, .*selects/);
    expect(readShotList(rows(['name', 'heroes'], ['Mug', '2'])).findings).toEqual([]);
  });

  test('an empty list is said to be empty', () => {
    expect(readShotList(rows()).findings).toEqual([{ code: 'shot-list.empty', args: {} }]);
  });

  test('a list without a name column is said to be none', () => {
    for (const list of [rows(['price']), [{ line: 1, fault: 'quote' } as const]]) {
      expect(readShotList(list)).toMatchObject({
        shots: [],
        findings: [{ code: 'shot-list.no-name-column', args: {} }],
      });
    }
  });

  test.each([
    ['name,description', ','],
    ['name;description;heroes', ';'],
    ['name\tdescription', '\t'],
    ['"name, in full";x', ';'],
    ['name', ','],
    ['', ','],
  ] as const)('%j is cut at %j', (header, delimiter) => {
    expect(delimiterOf(`${header}\nMug,a;b;c\n`)).toBe(delimiter);
  });
});

test.each([
  ['sep=;\nname;heroes\n', ';'],
  ['SEP=\t\nname\theroes\n', '\t'],
  ['"sep=;"\nname;heroes\n', ';'],
  ['sep=,\nname;all,heroes\n', ','],
] as const)('a first line that only says the delimiter is no header: %j', (text, delimiter) => {
  expect(delimiterOf(text)).toBe(delimiter);
  expect(listBody(text)).toMatch(/^\nname/);
  expect(listBody(listBody(text).slice(1))).toMatch(/^name/);
});

describe('lines', () => {
  const codeOf = (header: readonly string[], line: readonly string[]): unknown =>
    readShotList(rows(header, line)).bad[0]?.finding ?? 'fine';
  const name = (cell: string): unknown => codeOf(['name'], [cell]);

  test('a bad one is named by number and reason, and the others are taken', () => {
    const reading = readShotList([
      ...rows(['name', 'heroes'], ['Mug', 'many'], ['', '2'], ['Jug', '2']),
      { line: 5, fault: 'quote' },
    ]);
    expect(reading.bad.map(({ line, finding }) => [line, finding.code])).toEqual([
      [2, 'shot-list.bad-cell'],
      [3, 'shot-list.no-name'],
      [5, 'shot-list.line-quote'],
    ]);
    expect(reading.shots).toEqual([{ line: 4, id: null, name: 'Jug', says: { heroes: 2 } }]);
  });

  test('names, fields and columns fit up to their bound and not one more', () => {
    expect(name('x'.repeat(nameCharactersMax))).toBe('fine');
    expect(name('x'.repeat(nameCharactersMax + 1))).toMatchObject({ code: 'shot-list.name-too-long' });
    const field = (count: number): unknown => codeOf(['name', 'other'], ['Mug', 'x'.repeat(count)]);
    expect(field(fieldCharactersMax)).toBe('fine');
    expect(field(fieldCharactersMax + 1)).toMatchObject({ code: 'shot-list.field-too-long' });
    const wide = (count: number): unknown => codeOf(['name'], ['Mug', ...Array(count - 1).fill('')]);
    expect(wide(columnsMax)).toBe('fine');
    expect(wide(columnsMax + 1)).toMatchObject({ code: 'shot-list.too-many-columns' });
  });

  test('the most lines are read and the rest is said to be left', () => {
    const lines = Array.from({ length: shotListLinesMax + 1 }, () => ['']);
    expect(readShotList(rows(['name'], ...lines.slice(1))).findings).toEqual([]);
    expect(readShotList(rows(['name'], ...lines)).findings).toMatchObject([
      { code: 'shot-list.lines-not-read' },
    ]);
  });

  test('of very many bad lines the first are named and all are counted', () => {
    const lines = Array.from({ length: badLinesMax + 1 }, () => ['', 'x']);
    const { bad, badLines } = readShotList(rows(['name', 'other'], ...lines));
    expect([bad.length, badLines]).toEqual([badLinesMax, badLinesMax + 1]);
  });

  test('an id stands once, and is one', () => {
    const reading = readShotList(
      rows(['id', 'name'], ['a', 'Mug'], ['a', 'Jug'], ['a/b', 'Bowl'], ['', 'Cup']),
    );
    expect(reading.bad.map(({ finding }) => finding.code)).toEqual([
      'shot-list.id-twice',
      'shot-list.bad-id',
    ]);
    expect(reading.shots.map(({ id }) => id)).toEqual(['a', null]);
  });

  test.each([
    ['agreement', 'ja', { agreement: true }],
    ['agreement', '', {}],
    ['agreement', 'no', { agreement: false }],
    ['agreement', 'perhaps', null],
    ['heroes', '', {}],
    ['description', ' ', {}],
    ['heroes', '100', null],
    ['requires', 'Sharp, arrived', { requires: ['arrived', 'sharp'] }],
    ['requires', 'none', { requires: [] }],
    ['requires', 'sharp nice', null],
    ['layout', ' f-1_a ', { layout: 'f-1_a' }],
    ['layout', 'sketch-7.jpg', null],
    ['reference', 'see page 4', null],
    ['reference', 'x'.repeat(65), null],
    ['camera', '', {}],
    [
      'tolerances',
      'lightEv 0,1/0,3; shiftPx 2/8',
      { tolerances: { lightEv: { good: 0.1, bad: 0.3 }, shiftPx: { good: 2, bad: 8 } } },
    ],
    ['tolerances', 'lightEv 0.3/0.1', null],
    ['tolerances', 'niceness 1/2', null],
    ['tolerances', 'lightEv ./1', null],
  ] as const)('%s %j says %j', (column, cell, says) => {
    const reading = readShotList(rows(['name', column], ['Mug', cell]));
    if (says === null) expect(reading.bad[0]?.finding.code).toBe('shot-list.bad-cell');
    else expect(reading.shots[0]?.says).toEqual(says);
  });
});

describe('taking a list in', () => {
  const empty: Jobs = new Map<string, Job>();
  const base = [
    ...planNewJob(empty, { code: 'A' }),
    ...['Mug', 'Jug'].map((name) => ({
      type: 'shot-stated' as const,
      job: 'A',
      shot: { ...plainShot(name.toLowerCase(), name), baselines: [{ frame: 'b', fromMs: 1 }] },
    })),
  ].reduce(applyJobChoice, empty);
  const take = (jobs: Jobs, ...lines: readonly (readonly string[])[]): ReturnType<typeof planImport> =>
    planImport(jobs, 'A', readShotList(rows(...lines)).shots);

  test('a list that says an empty order of frames changes no shot that has none', () => {
    const [line, ...others] = readShotList(rows(['name'], ['Mug'])).shots;
    if (line === undefined || others.length > 0) throw new Error('expected one line');
    const plan = planImport(base, 'A', [{ ...line, says: { ...line.says, order: [] } }]);
    expect(plan.lines.map(({ what }) => what)).toEqual(['same']);
    const other = planImport(base, 'A', [{ ...line, says: { ...line.says, order: ['f'] } }]);
    expect(other.lines.map(({ what }) => what)).toEqual(['changed']);
  });

  test('a line meets the shot of its name, keeps what the list says nothing of, and new ones are added', () => {
    const plan = take(base, ['name', 'heroes'], ['Jug', '3'], ['Bowl', '2'], ['Mug', '1']);
    expect(plan.lines.map(({ line, id, what }) => [line, id, what])).toEqual([
      [2, 'jug', 'changed'],
      [3, 'bowl', 'added'],
      [4, 'mug', 'same'],
    ]);
    const job = plan.choices.reduce(applyJobChoice, base).get('A');
    expect(job?.shots.map(({ id, heroes, baselines }) => [id, heroes, baselines.length])).toEqual([
      ['jug', 3, 1],
      ['bowl', 2, 0],
      ['mug', 1, 1],
    ]);
  });

  test('an empty cell leaves what stands there, and each field that changes is named with both values', () => {
    const told = applyJobChoice(base, {
      type: 'shot-stated',
      job: 'A',
      shot: { ...plainShot('mug', 'Mug'), description: 'With steam' },
    });
    const plan = take(told, ['name', 'description', 'heroes'], ['Mug', '', '2'], ['Jug', 'Blue', '']);
    expect(plan.lines.map(({ changes }) => changes)).toEqual([
      [{ field: 'heroes', from: '1', to: '2' }],
      [{ field: 'description', from: '', to: 'Blue' }],
    ]);
    expect(plan.reorders).toBe(false);
    expect(take(base, ['name'], ['Jug'], ['Mug']).reorders).toBe(true);
    const job = plan.choices.reduce(applyJobChoice, told).get('A');
    expect(job?.shots[0]).toMatchObject({ description: 'With steam', heroes: 2 });
  });

  test('an id renames its shot; a shot the list does not name stays behind the others', () => {
    const plan = take(base, ['id', 'name'], ['jug', 'Large jug']);
    const job = plan.choices.reduce(applyJobChoice, base).get('A');
    expect(job?.shots.map(({ name }) => name)).toEqual(['Large jug', 'Mug']);
  });

  test('two lines of one name are two shots', () => {
    const plan = take(base, ['name'], ['Cup'], ['Cup'], ['Mug'], ['Mug']);
    expect(plan.lines.map(({ id }) => id)).toEqual(['cup', 'cup-2', 'mug', 'mug-2']);
  });

  test('a hidden shot that the list names is listed again', () => {
    const hidden = applyJobChoice(base, {
      type: 'shot-stated',
      job: 'A',
      shot: { ...plainShot('jug', 'Jug'), hidden: true },
    });
    const plan = take(hidden, ['name'], ['Jug']);
    expect(plan.lines[0]).toMatchObject({ id: 'jug', what: 'changed' });
  });

  test('a list makes the most shots there may be and not one more', () => {
    const names = Array.from({ length: shotsMax - 1 }, (_, n) => [`Shot ${n}`]);
    expect(take(base, ['name'], ...names.slice(1)).lines).toHaveLength(shotsMax - 2);
    expect(() => take(base, ['name'], ...names)).toThrow(expect.objectContaining({ code: 'too-many-shots' }));
  });
});
