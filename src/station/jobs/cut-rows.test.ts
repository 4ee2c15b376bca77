import { describe, expect, test } from 'vitest';
import {
  applyJobChoice,
  decodeText,
  delimiterOf,
  type Job,
  type Jobs,
  jobLimits,
  plainShot,
  planImport,
  planNewJob,
  readShotList,
  type Shot,
  writeShotList,
} from '../../job/index.ts';
import { cutRows, faultsMax, rowBytesMax } from './cut-rows.ts';

const cells = (text: string): unknown[] =>
  cutRows(text.replaceAll('\r\n', '\n'), ',').map((row) => ('cells' in row ? row.cells : row.fault));

describe('RFC 4180 section 2, with the examples of its rules', () => {
  test.each([
    ['1: each record is on a line of its own', 'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n'],
    ['2: the last record need not end in a line break', 'aaa,bbb,ccc\r\nzzz,yyy,xxx'],
    ['5: fields may be in quotes', '"aaa","bbb","ccc"\r\nzzz,yyy,xxx'],
  ])('%s', (_rule, text) => {
    expect(cells(text)).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
  });

  test('3: a header has the form of a record', () => {
    expect(cells('field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n')[0]).toEqual([
      'field_name',
      'field_name',
      'field_name',
    ]);
  });

  test('4: blanks are part of a field', () => {
    expect(cells('aaa, bbb ,ccc')).toEqual([['aaa', ' bbb ', 'ccc']]);
  });

  test('6: a field in quotes may hold line breaks, quotes and commas', () => {
    expect(cells('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ['aaa', 'b\nbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
  });

  test('7: a quote in a field is written twice', () => {
    expect(cells('"aaa","b""bb","ccc"')).toEqual([['aaa', 'b"bb', 'ccc']]);
  });
});

describe('lines that are none', () => {
  test('a line with a stray quote is a fault of that number, and the next is read', () => {
    expect(cutRows('name\nMug\n"J"ug\nBowl\n', ',')).toEqual([
      { line: 1, cells: ['name'] },
      { line: 2, cells: ['Mug'] },
      { line: 3, fault: 'quote' },
      { line: 4, cells: ['Bowl'] },
    ]);
  });

  test('a quote that never closes takes its own line with it and no other', () => {
    expect(cutRows('name\n\n"Mug\nJug\n', ',').slice(1)).toEqual([
      { line: 3, fault: 'unclosed' },
      { line: 4, cells: ['Jug'] },
    ]);
  });

  test('a record over several lines has the number of its first', () => {
    expect(cutRows('name\n\n"M\nu\ng"\n\nJug', ',').map(({ line }) => line)).toEqual([1, 3, 7]);
  });

  test('a line may be as long as the longest and not one character longer', () => {
    const just = 'x'.repeat(rowBytesMax);
    const shape = (text: string): unknown =>
      cutRows(`${text}\nnext`, ',').map((row) => ('fault' in row ? row.fault : row.cells[0]?.length));
    expect(shape(just)).toEqual([rowBytesMax, 4]);
    expect(shape(`${just}x`)).toEqual(['too-long', 4]);
  });

  test('a file of wrong lines is given up after the most there may be, and not one sooner', () => {
    const last = (count: number): unknown => cutRows('a"\n'.repeat(count), ',').at(-1);
    expect(last(faultsMax - 1)).toEqual({ line: faultsMax - 1, fault: 'quote' });
    expect(last(faultsMax + 5)).toEqual({ line: faultsMax, fault: 'given-up' });
  });

  test('of a hundred thousand lines the most are read and it is said that there are more', () => {
    const text = `name\n${'Mug\n'.repeat(100_000)}`;
    const reading = readShotList(cutRows(text, ','));
    expect(reading.shots).toHaveLength(jobLimits.shotListLinesMax);
    expect(reading.findings[0]?.code).toBe('shot-list.lines-not-read');
    const all = readShotList(cutRows(`name\n${'Mug\n'.repeat(jobLimits.shotListLinesMax)}`, ','));
    expect(all.findings).toEqual([]);
  });
});

/** Everything that could get lost on the way: quotes, line breaks, blanks at the ends, what looks like a formula. */
const awkward: readonly Shot[] = [
  {
    ...plainShot('mug', 'Mug, "blue" – für Łódź'),
    description: ' first line\nsecond; with, both "and" tab\there ',
    camera: 'cam2',
    look: 'warm',
    layout: 'f-1',
    reference: 'f-2',
    heroes: 0,
    selects: 99,
    agreement: true,
    requires: [],
    mutes: ['colour'],
    tolerances: { edgeWidthPx: { good: 1.5, bad: 4 }, neutralDuv: { good: 1e-7, bad: 0.1 } },
  },
  { ...plainShot('formula', '=SUM(A1)'), description: "'=already kept text" },
  { ...plainShot('minus', '-5 °C jug'), description: '@home +1' },
  plainShot('plain', '器'),
];

function withShots(shots: readonly Shot[]): Jobs {
  let jobs: Jobs = new Map<string, Job>();
  for (const choice of planNewJob(jobs, { code: 'A' })) jobs = applyJobChoice(jobs, choice);
  for (const shot of shots) jobs = applyJobChoice(jobs, { type: 'shot-stated', job: 'A', shot });
  return jobs;
}

describe('there and back', () => {
  const file = writeShotList(awkward);
  const { text } = decodeText(new TextEncoder().encode(file));
  const reading = readShotList(cutRows(text, delimiterOf(text)));

  test('a list that went out comes back the same into an empty job', () => {
    expect(reading).toMatchObject({ bad: [], unknownColumns: [], findings: [] });
    let jobs = withShots([]);
    for (const choice of planImport(jobs, 'A', reading.shots).choices) jobs = applyJobChoice(jobs, choice);
    expect(jobs.get('A')?.shots).toEqual(awkward);
  });

  test('into the job it came from it changes nothing', () => {
    const plan = planImport(withShots(awkward), 'A', reading.shots);
    expect(plan.choices).toEqual([]);
    expect(plan.lines.map(({ what }) => what)).toEqual(['same', 'same', 'same', 'same']);
  });

  test('every line ends in CR LF, and no cell begins like a formula', () => {
    expect(file.replaceAll('\r\n', '')).not.toContain('\r');
    const formula = cutRows(text, ',').flatMap((row) => ('cells' in row ? row.cells : []));
    expect(formula.filter((cell) => /^[=+\-@]/.test(cell))).toEqual([]);
  });
});
