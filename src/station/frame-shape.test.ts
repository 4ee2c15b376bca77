import { expect, test } from 'vitest';
import { frame as frameShape } from '../contract/index.ts';
import type { FileRow, FrameRow } from '../register/index.ts';
import { type FrameSurroundings, frameOfRow } from './frame-shape.ts';
import { noLimits } from './readings/frame-limits.ts';

const file: FileRow = {
  arrival: 'a1',
  name: 'A0001.DNG',
  viewPath: '/A0001.DNG',
  path: null,
  incoming: 'a1-A0001.DNG',
  sizeBytes: 0,
  expectedBytes: null,
  announcedBytes: null,
  sha256: null,
  state: 'arriving',
  hidden: false,
  firstByteMs: null,
  keptMs: null,
  copies: [],
};
const noTimes = {
  beganMs: null,
  firstByteMs: null,
  firstViewMs: null,
  lastByteMs: null,
  keptMs: null,
  renderedMs: null,
  judgedMs: null,
};
const row: FrameRow = {
  id: 'f1',
  job: 'unsorted',
  shot: null,
  camera: 'cam1',
  name: 'A0001.DNG',
  kind: null,
  shutterMs: null,
  orderMs: 0,
  times: noTimes,
  capture: null,
  mark: 'none',
  purpose: 'picture',
  spot: null,
  marked: false,
  markedMs: null,
  placedBy: 'arrival',
  shotless: null,
  look: null,
  slate: null,
  seen: null,
  acceptances: [],
  share: null,
  remarks: [],
  picture: null,
  readings: null,
  files: [file],
  version: 3,
};
const about: FrameSurroundings = {
  live: () => ({ bytes: 500, expectedBytes: 2000, bytesPerSecond: 100, startedMs: 1000 }),
  expects: () => null,
  original: () => null,
  copyIsBad: () => false,
  fromFolder: () => false,
  limits: () => noLimits,
  now: () => 5000,
};

test('a frame that arrives is told as the contract has it, with its live bytes and when it began', () => {
  const told = frameShape.parse(frameOfRow(row, about, []));
  expect(told.files[0]).toMatchObject({
    size: 500,
    expectedSize: 2000,
    bytesPerSecond: 100,
    state: 'arriving',
  });
  expect(told.times.firstByte).toBe('1970-01-01T00:00:01.000Z');
  expect(told.verdicts.arrived.judgement).toBe('unknown');
});

test.each([
  ['broken-off', null, null, null],
  ['broken-off', null, 900, 900],
  ['broken-off', 800, 900, 800],
  // An announcement of no more than came was not about this file, and what a cut file reached is not its length.
  ['broken-off', null, 500, null],
  ['broken-off', 500, null, null],
  ['damaged', null, null, null],
  ['whole', null, 499, null],
] as const)(
  '%s, structure %s, announced %s: %s bytes are told',
  (state, expectedBytes, announcedBytes, told) => {
    const known = { ...file, state, sizeBytes: 500, expectedBytes, announcedBytes };
    const frame = frameOfRow({ ...row, files: [known] }, { ...about, live: () => null }, []);
    expect(frame?.files[0]?.expectedSize).toBe(told);
  },
);

test.each([
  [{ shot: 'mug', shotless: null }, null],
  [{ shot: 'mug', shotless: 'no-shots', placedBy: 'hand' }, null],
  [{ job: 'unsorted', placedBy: 'hand' }, null],
  [{ shotless: 'other-camera' }, 'other-camera'],
  [{ shotless: 'no-shots', placedBy: 'hand' }, 'by-hand'],
  [{ placedBy: 'slate' }, 'by-slate'],
  [{}, 'unknown'],
] as const)('why a frame belongs to no shot: of %j it is %s', (change, reason) => {
  const ofJob = { ...row, job: 'QM-26', shot: null, placedBy: 'arrival' as const, shotless: null };
  expect(frameOfRow({ ...ofJob, ...change }, about, [])?.shotless).toBe(reason);
});

test('once the register knows the first byte, that counts', () => {
  const kept = { ...row, times: { ...noTimes, firstByteMs: 900, keptMs: 2000 } };
  expect(frameOfRow(kept, about, [])?.times.firstByte).toBe('1970-01-01T00:00:00.900Z');
});

test('a file that broke off without a byte has its place in the day all the same', () => {
  const broken: FileRow = { ...file, state: 'broken-off' };
  const times = { ...noTimes, beganMs: 700 };
  const told = frameOfRow({ ...row, times, files: [broken] }, { ...about, live: () => null }, [])?.times;
  expect(told).toMatchObject({ began: '1970-01-01T00:00:00.700Z', firstByte: null });
});

test('a frame is judged by its worst file, and one without a file to show is not told', () => {
  const whole: FileRow = { ...file, arrival: 'a2', name: 'A0001.JPG', state: 'whole', sizeBytes: 10 };
  const broken: FileRow = { ...file, state: 'broken-off' };
  const quiet = { ...about, live: () => null };
  expect(frameOfRow({ ...row, files: [whole, broken] }, quiet, [])?.verdicts.arrived.judgement).toBe('bad');
  expect(frameOfRow({ ...row, files: [{ ...file, state: 'again' }] }, quiet, [])).toBeNull();
});

test('of two whole files the larger speaks for the frame, and a sidecar only where it is alone', () => {
  const raw: FileRow = { ...file, state: 'whole', sizeBytes: 26e6 };
  const jpeg: FileRow = { ...raw, arrival: 'a2', name: 'A0001.JPG', sizeBytes: 2e6 };
  const sidecar: FileRow = { ...raw, arrival: 'a3', name: 'A0001.XMP', state: 'unproved', sizeBytes: 737 };
  const told = (files: FileRow[]): unknown =>
    frameOfRow({ ...row, files }, { ...about, live: () => null }, [])?.readings;
  expect(told([jpeg, raw, sidecar])).toEqual({ sizeMB: 26 });
  expect(told([sidecar])).toEqual({ sizeMB: 0.000737 });
});

test('how long it took is the picture’s own sending: a sidecar that came 80 s before it, or after, counts for nothing', () => {
  const whole = { ...file, state: 'whole' } as const;
  const picture: FileRow = { ...whole, sizeBytes: 10e6, firstByteMs: 100_000, keptMs: 102_000 };
  const sidecar = { ...whole, arrival: 'a3', name: 'A0001.XMP', sizeBytes: 737 };
  const times = { ...noTimes, firstByteMs: 20_000, keptMs: 190_000 };
  for (const [firstByteMs, keptMs] of [
    [20_000, 20_010],
    [180_000, 190_000],
  ] as const) {
    const files: FileRow[] = [{ ...sidecar, firstByteMs, keptMs }, picture];
    const told = frameOfRow({ ...row, times, files }, { ...about, live: () => null }, []);
    // 10 MB in 2 s are 5 MB/s.
    expect(told?.readings).toEqual({ sizeMB: 10, arrivalS: 2, lineMBPerS: 5 });
    expect(told?.verdicts.arrived.findings[0]?.args.ms).toBe(2_000);
  }
});

test('a frame with a bad original is bad whatever its other files are, and says where a copy lies', () => {
  const raw: FileRow = { ...file, state: 'whole', sizeBytes: 26e6 };
  const copy = {
    place: 'p1',
    folder: '/mnt/b',
    otherDevice: true,
    readBack: 'direct',
    copiedMs: 1,
  } as const;
  const jpeg: FileRow = { ...raw, arrival: 'a2', name: 'A0001.JPG', sizeBytes: 2e6, copies: [copy] };
  const original: FrameSurroundings['original'] = (arrival) => (arrival === 'a2' ? 'differs' : null);
  const told = frameOfRow({ ...row, files: [raw, jpeg] }, { ...about, live: () => null, original }, []);
  expect(told?.verdicts.arrived).toMatchObject({
    judgement: 'bad',
    findings: [{ code: 'arrived.original-differs', args: { folder: '/mnt/b' } }],
  });
});

test('a picture that an earlier version wrote and this one does not understand is no picture', () => {
  expect(frameOfRow({ ...row, picture: { state: 'hologram' } }, about, [])?.picture).toEqual({
    state: 'none',
  });
});

test('the counter is that of the name as it is now', () => {
  expect(frameOfRow({ ...row, name: 'QMST0270.DNG' }, about, [])?.counter).toBe(270);
  expect(frameOfRow({ ...row, name: 'QMST0270.DNG.TMP' }, about, [])?.counter).toBe(null);
});

test('a frame is judged by what was said of its camera when it was kept', () => {
  const whole: FileRow = { ...file, state: 'whole', sizeBytes: 10 };
  const kept = { ...row, files: [whole], times: { ...noTimes, firstByteMs: 900, keptMs: 2000 } };
  const later = { ...about, live: () => null, now: () => 1_000_000 };
  const findings = (saidMs: number): (string | undefined)[] =>
    (
      frameOfRow(kept, { ...later, expects: (_, keptMs) => (saidMs <= keptMs ? 'both' : null) }, [])?.verdicts
        .arrived.findings ?? []
    ).map(({ code }) => code);
  expect(findings(2000)).toContain('arrived.jpeg-missing');
  expect(findings(2001)).not.toContain('arrived.jpeg-missing');
});

test('a frame tells which verdicts its shot does not speak of', () => {
  expect(frameOfRow(row, about, [])?.mutes).toEqual([]);
  const limits = () => ({ ...noLimits, mutes: ['inPlace'] as const });
  expect(frameShape.parse(frameOfRow(row, { ...about, limits }, [])).mutes).toEqual(['inPlace']);
});
