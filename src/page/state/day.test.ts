import { expect, test } from 'vitest';
import { shutterLagMsMax } from '../../base/index.ts';
import type { Frame } from '../../contract/index.ts';
import { sampleJob } from '../../contract/testing/sample-job.ts';
import {
  sampleDayMs,
  sampleFile,
  sampleFrame,
  sampleInstant,
  sampleStation,
} from '../testing/sample-frame.ts';
import { arrivalProgress } from './arrival-progress.ts';
import { counterGaps } from './counter-gaps.ts';
import { houseFindings } from './house-findings.ts';
import { clockAheadMsMax, clockIsOff, momentOf } from './moment.ts';
import { shotBeside, shotStops } from './shot-stops.ts';

const counted = (counter: number, second: number, camera = 'cam1'): Frame =>
  sampleFrame(`${camera}-${counter}`, second, { counter, camera });
const timed = (shutterMs: number, beganMs: number): Frame => {
  const frame = sampleFrame('a', 0);
  const at = (ms: number): string => sampleInstant(ms / 1000);
  const came = { began: at(beganMs), firstByte: at(beganMs) };
  return { ...frame, times: { ...frame.times, shutter: at(shutterMs), ...came } };
};

test('a frame lies at its shutter, however long it took to arrive, within the day', () => {
  expect(momentOf(timed(0, shutterLagMsMax))).toBe(sampleDayMs);
  expect(clockIsOff(timed(0, shutterLagMsMax))).toBe(false);
});

test('a shutter half a day before the first byte, or after it, is a clock that is off: the first byte places it', () => {
  expect(momentOf(timed(0, shutterLagMsMax + 1))).toBe(sampleDayMs + shutterLagMsMax + 1);
  expect(clockIsOff(timed(0, shutterLagMsMax + 1))).toBe(true);
  expect(momentOf(timed(5000, 1000))).toBe(sampleDayMs + 1000);
  expect(clockIsOff(timed(1000 + clockAheadMsMax, 1000))).toBe(false);
  expect(clockIsOff(timed(1001 + clockAheadMsMax, 1000))).toBe(true);
});

test('a frame without a shutter stays where its first file began, without a byte and when it is sent again', () => {
  const frame = sampleFrame('a', 0);
  const times = { ...frame.times, shutter: null, began: sampleInstant(5), kept: null };
  expect(momentOf({ ...frame, times: { ...times, firstByte: null } })).toBe(sampleDayMs + 5000);
  expect(momentOf({ ...frame, times: { ...times, firstByte: sampleInstant(900) } })).toBe(sampleDayMs + 5000);
});

test('a counter that jumps leaves a gap with its numbers, just before the frame that came after', () => {
  const [gap] = counterGaps([counted(41, 0), counted(44, 30)]);
  expect(gap).toMatchObject({ from: 42, to: 43, count: 2, momentMs: sampleDayMs + 30_000 - 1 });
});

test('0001 follows 9999 without a gap (CIPA DC-009), and the gap over the turn counts right', () => {
  expect(counterGaps([counted(9999, 0), counted(1, 10)])).toEqual([]);
  expect(counterGaps([counted(9998, 0), counted(2, 10)])).toMatchObject([{ from: 9999, to: 1, count: 2 }]);
});

test('each camera counts for itself, and another card is no gap', () => {
  expect(counterGaps([counted(41, 0), counted(900, 5, 'cam2'), counted(42, 10)])).toEqual([]);
  expect(counterGaps([counted(41, 0), counted(7000, 10)])).toEqual([]);
  expect(counterGaps([counted(41, 0), counted(12, 10)])).toEqual([]);
});

test('a number that came with a clock two hours slow is not missing; one from before the counter was set back is', () => {
  // Taken with the others, and told by its camera to have been taken in the morning.
  const slow = counted(43, 20);
  const morning = { ...slow, times: { ...slow.times, shutter: sampleInstant(-7200) } };
  expect(counterGaps([morning, counted(41, 0), counted(46, 30)])).toMatchObject([
    { from: 42, to: 42, count: 1 },
    { from: 44, to: 45, count: 2 },
  ]);
  const setBack = [counted(1, 0), counted(2, 10), { ...counted(1, 20), id: 'again' }, counted(3, 30)];
  expect(counterGaps(setBack)).toMatchObject([{ from: 2, to: 2, count: 1 }]);
});

test('two cameras with one log-in count each for itself, by the characters in front of the number', () => {
  const named = (name: string, second: number): Frame => {
    return sampleFrame(name, second, { name, counter: Number(name.slice(4, 8)) });
  };
  expect(counterGaps([named('QMST0006.DNG', 0), named('QM020008.DNG', 1), named('QMST0007.DNG', 2)])).toEqual(
    [],
  );
  // DCF 2.0: a file in the optional colour space begins with an underscore; the counter is the same one.
  expect(counterGaps([named('IMG_0006.DNG', 0), named('_MG_0007.DNG', 1), named('IMG_0008.DNG', 2)])).toEqual(
    [],
  );
  expect(counterGaps([named('IMG_0006.DNG', 0), named('_MG_0008.DNG', 1)])).toMatchObject([{ count: 1 }]);
});

test('bytes, share, speed and seconds to go are over all files of a frame', () => {
  const frame = sampleFrame('a', 0, {
    files: [
      sampleFile('A.DNG', { state: 'arriving', size: 5e6, expectedSize: 20e6, bytesPerSecond: 2e6 }),
      sampleFile('A.JPG', { state: 'arriving', size: 1e6, expectedSize: 4e6, bytesPerSecond: 1e6 }),
    ],
  });
  expect(arrivalProgress(frame)).toEqual({ bytes: 6e6, share: 0.25, bytesPerSecond: 3e6, secondsToGo: 6 });
});

test('where nobody announced the size there is no share and no time to go', () => {
  const frame = sampleFrame('a', 0, {
    files: [sampleFile('A', { state: 'arriving', expectedSize: null, bytesPerSecond: 2e6 })],
  });
  expect(arrivalProgress(frame)).toMatchObject({ share: null, secondsToGo: null });
});

test('a shot is open, taken, or has as many heroes as it wants; the current one is what the job says', () => {
  const job = sampleJob({
    code: 'j',
    currentShot: 'three',
    shots: [{ id: 'one' }, { id: 'two', heroes: 2 }, { id: 'three' }],
  });
  const frames = [
    sampleFrame('a', 0, { job: 'j', shot: 'one', mark: 'hero' }),
    sampleFrame('b', 10, { job: 'j', shot: 'two', mark: 'hero' }),
    sampleFrame('c', 20, { job: 'j', shot: null }),
    sampleFrame('d', 30, { job: 'j', shot: 'three', name: 'REHEARSE.JPG', purpose: 'test' }),
  ];
  expect(shotStops(job, frames)).toMatchObject([
    { state: 'chosen', frames: 1, heroes: 1, current: false },
    { state: 'taken', frames: 1, heroes: 1, current: false },
    { state: 'open', frames: 0, current: true },
  ]);
  expect(shotStops({ ...job, currentShot: null }, frames).some((stop) => stop.current)).toBe(false);
});

test('a job copied from another has its shots’ ids, and the frames of the other do not count for it', () => {
  const job = sampleJob({ code: 'copy', shots: [{ id: 'one' }] });
  expect(shotStops(job, [sampleFrame('a', 0, { job: 'j', shot: 'one' })])).toMatchObject([
    { frames: 0, state: 'open' },
  ]);
});

test('a step along the line leads to the shot beside, from nowhere to the first, and over its ends nowhere', () => {
  const job = sampleJob({ shots: [{ id: 'one' }, { id: 'two' }] });
  const beside = (currentShot: string | null, by: -1 | 1) =>
    shotBeside({ ...job, currentShot }, by)?.id ?? null;
  expect([beside(null, 1), beside(null, -1), beside('one', 1), beside('two', -1)]).toEqual([
    'one',
    'one',
    'two',
    'one',
  ]);
  expect([beside('two', 1), beside('one', -1)]).toEqual([null, null]);
});

test('room on the disk is counted in frames of the day’s size', () => {
  const roomFor = (frames: number) =>
    houseFindings(
      sampleStation({ disk: { freeBytes: frames * 24.6e6, totalBytes: 1e12, floorBytes: 0 } }),
      [sampleFrame('a', 0)],
      'a',
    );
  expect(roomFor(500)).toEqual([]);
  expect(roomFor(499)).toMatchObject([{ judgement: 'doubt', finding: { args: { frames: 490 } } }]);
  expect(roomFor(49)).toMatchObject([{ judgement: 'bad', finding: { args: { frames: 49 } } }]);
});

test('what lies in incoming/ and no frame needs is said from a gigabyte on', () => {
  const idle = (bytes: number, why: 'let-go' | 'waiting' = 'let-go') =>
    houseFindings(
      sampleStation({
        incoming: [
          { why: 'waiting', files: 9, bytes: 5e9 },
          { why: 'unrecorded', files: 1, bytes: 1 },
          { why, files: 2, bytes: bytes - 1 },
        ],
      }),
      [],
      null,
    );
  expect(idle(999_999_999)).toEqual([]);
  expect(idle(9e9, 'waiting')).toEqual([]);
  expect(idle(1e9)).toMatchObject([
    { judgement: 'doubt', finding: { code: 'page.incoming-idle', args: { bytes: 1e9 } } },
  ]);
});

test('a door that is shut says why, before the missing second place', () => {
  const trouble = { code: 'line.port-in-use', args: { port: 2121, door: 'ftp' } };
  const station = sampleStation({ doors: [{ name: 'ftp', port: null, trouble }], secondPlaces: [] });
  expect(houseFindings(station, [], null).map(({ finding }) => finding.code)).toEqual([
    'line.port-in-use',
    'page.one-place',
  ]);
});

test('a port that was taken, with the door open at another, needs nobody’s hand: the sheet says which port', () => {
  const trouble = { code: 'line.port-taken', args: { port: 21, door: 'FTP', instead: 2121 } };
  const station = sampleStation({ doors: [{ name: 'ftp', port: 2121, trouble }] });
  expect(houseFindings(station, [], null)).toEqual([]);
});

test('an older file that broke off is named, and leads to its frame, until that one is shown or is made good', () => {
  const broken = sampleFile('A.DNG', { state: 'broken-off', sha256: null });
  const older = sampleFrame('a', 0, { name: 'A.DNG', files: [broken] });
  const newer = sampleFrame('b', 30);
  const found = (frames: readonly Frame[], shownId: string) =>
    houseFindings(sampleStation(), frames, shownId);
  expect(found([older, newer], 'b')).toEqual([
    { judgement: 'bad', finding: { code: 'page.broken-off', args: { name: 'A.DNG' } }, frame: 'a' },
  ]);
  expect(found([older, newer], 'a')).toEqual([]);
  expect(found([sampleFrame('a', 0), newer], 'b')).toEqual([]);
  const again = sampleFile('A.DNG', { state: 'arriving', sha256: null });
  expect(found([{ ...older, files: [broken, again] }, newer], 'b')).toEqual([]);
});

test('what is bad comes before what is doubtful, and each code stands there once', () => {
  const trouble = (folder: string) => ({ code: 'copy.away', args: { folder } });
  const place = (folder: string) => ({ folder, otherDevice: null, waiting: 3, trouble: trouble(folder) });
  const silent = { code: 'line.camera-silent', args: { camera: 'cam1', minutes: 5 } };
  const base = sampleStation();
  const station = sampleStation({
    disk: { freeBytes: 300 * 24.6e6, totalBytes: 1e12, floorBytes: 0 },
    secondPlaces: [place('/a'), place('/b')],
    cameras: base.cameras.map((camera) => ({ ...camera, trouble: silent })),
  });
  const found = houseFindings(station, [sampleFrame('a', 0)], 'a');
  expect(found.map(({ finding }) => finding.code)).toEqual([
    'copy.away',
    'line.camera-silent',
    'page.disk-filling',
  ]);
  expect(found[0]?.finding.args).toEqual({ folder: '/a and /b', merged: 2 });
});
