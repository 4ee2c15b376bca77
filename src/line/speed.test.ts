import { expect, test } from 'vitest';
import { sentence } from '../words/index.ts';
import { type ArrivedFile, bytesMin, filesMax, spanMsMax, speedFinding, speedOf } from './speed.ts';

/** A file that began so many seconds after the first, and took so long. */
const file = (fromS: number, tookS: number, bytes: number, more: Partial<ArrivedFile> = {}): ArrivedFile => ({
  bytes,
  firstByteMs: fromS * 1000,
  lastByteMs: (fromS + tookS) * 1000,
  kind: 'raw',
  firstViewMs: null,
  ...more,
});

/** Derived by hand: bytes divided by seconds, the middle of them; the covered seconds divided by all. */
const table: readonly [string, readonly ArrivedFile[], Record<string, unknown> | null][] = [
  ['nothing came', [], null],
  ['only side files came', [file(0, 1, bytesMin - 1)], null],
  ['a file in no time tells nothing', [file(0, 0, 9e6)], null],
  [
    'one raw of 25 MB in 6.3 s',
    [file(0, 6.3, 25e6)],
    {
      bytesPerSecond: 25e6 / 6.3,
      busy: 1,
      files: 1,
      cableMs: 400,
      raw: { bytes: 25e6, measured: true, ms: 6300 },
    },
  ],
  [
    'the middle of three speeds, and the ends',
    [file(0, 2, 8e6), file(10, 4, 8e6), file(20, 1, 8e6)],
    { bytesPerSecond: 4e6, slowest: 2e6, fastest: 8e6, busy: 7 / 21, files: 3 },
  ],
  ['of two the mean', [file(0, 2, 8e6), file(4, 4, 8e6)], { bytesPerSecond: 3e6, busy: 6 / 8 }],
  [
    'two at a time keep the line busy once',
    [file(0, 4, 8e6), file(2, 4, 8e6), file(8, 2, 8e6)],
    { busy: 8 / 10 },
  ],
  ['one within another adds nothing', [file(0, 9, 9e6), file(2, 1, 1e6)], { busy: 1 }],
  [
    'a camera that sends JPEG alone: its raws are assumed',
    [file(0, 1, 5e6, { kind: 'jpeg' })],
    { raw: { bytes: 25e6, measured: false, ms: 5000 }, jpeg: { bytes: 5e6, measured: true, ms: 1000 } },
  ],
  [
    'raws alone: a small JPEG is assumed',
    [file(0, 5, 20e6)],
    { jpeg: { bytes: 3e6, measured: false, ms: 750 }, cableMs: 320 },
  ],
  [
    'when the preview of a raw was seen: the middle of what was',
    [
      file(0, 5, 2e7, { firstViewMs: 400 }),
      file(10, 5, 2e7, { firstViewMs: 10_600 }),
      file(20, 5, 2e7, { firstViewMs: 22_000 }),
      file(30, 5, 2e7, { kind: 'jpeg', firstViewMs: 30_001 }),
    ],
    { firstViewMs: 600 },
  ],
];

test.each(table)('%s', (_name, files, expected) => {
  const speed = speedOf(files);
  if (expected === null) expect(speed).toBeNull();
  else expect(speed).toMatchObject(expected);
});

test('files from before a pause of more than an hour say nothing about now', () => {
  const lateS = spanMsMax / 1000;
  expect(speedOf([file(0, 1, 1e6), file(lateS, 1, 8e6)])?.files).toBe(2);
  expect(speedOf([file(0, 1, 1e6), file(lateS + 0.001, 1, 8e6)])?.files).toBe(1);
});

test('of many files the newest are taken', () => {
  const many = Array.from({ length: filesMax + 10 }, (_, at) => file(at * 2, 1, at < 10 ? 1e6 : 4e6));
  expect(speedOf(many)).toMatchObject({ files: filesMax, slowest: 4e6, sinceMs: 20_000 });
});

const said = (...files: ArrivedFile[]): string => {
  const speed = speedOf(files);
  return speed === null ? '' : sentence(speedFinding(speed));
};

test('the sentence says what the speed means and how the figures were got', () => {
  expect(said(file(0, 6.25, 25e6, { firstViewMs: 1400 }))).toBe(
    'Measured on its newest file: 4.0 MB a second. A raw of 25.0 MB takes 6.3 s; the preview in it is seen after 1.4 s. Raw and a small JPEG, the JPEG sent first, would be seen after 0.8 s (3.0 MB assumed). A cable would take 0.4 s (62.5 MB a second assumed, half of gigabit Ethernet).',
  );
  expect(said(file(0, 1, 5e6, { kind: 'jpeg' }), file(10, 1, 4e6, { kind: 'jpeg' }))).toBe(
    'Measured on its newest 2 files: 4.5 MB a second, 4.0 to 5.0. A JPEG of 4.5 MB takes 1.0 s. A raw would take 5.6 s (25.0 MB assumed). A cable would take 0.4 s for it (62.5 MB a second assumed, half of gigabit Ethernet).',
  );
});

test('where the line is as fast as a cable, none is advised', () => {
  expect(said(file(0, 0.3, 25e6))).not.toContain('cable');
});
