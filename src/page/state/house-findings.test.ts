import { expect, test } from 'vitest';
import { sampleFile, sampleFrame, sampleStation } from '../testing/sample-frame.ts';
import { houseFindings } from './house-findings.ts';

const brokenOff = sampleFrame('b', 0, { files: [sampleFile('b.DNG', { state: 'broken-off' })] });
const place = (code: string) => ({
  folder: '/mnt/second',
  otherDevice: null,
  waiting: 3,
  trouble: { code, args: { folder: '/mnt/second' } },
});

test.each(['copy.away', 'copy.silent', 'copy.full', 'copy.failed', 'copy.foreign'])(
  'a second place that takes no copies (%s) is told before a single frame that broke off: every new frame waits for it',
  (code) => {
    const station = sampleStation({ secondPlaces: [place(code)] });
    const found = houseFindings(station, [brokenOff, sampleFrame('a', 20)], 'a');
    expect(found.map(({ finding }) => finding.code)).toEqual([code, 'page.broken-off']);
    expect(found[0]?.judgement).toBe('bad');
  },
);

test('a disk that is nearly full comes first: soon no frame can arrive at all', () => {
  const disk = { freeBytes: 1e9, totalBytes: 960e9, floorBytes: 0 };
  const station = sampleStation({ secondPlaces: [place('copy.away')], disk });
  const found = houseFindings(station, [brokenOff], null);
  expect(found.map(({ finding }) => finding.code)).toEqual([
    'page.disk-nearly-full',
    'copy.away',
    'page.broken-off',
  ]);
});

test('room is what new frames may take: below the floor that is left free they are refused, and that is said', () => {
  const codes = (freeBytes: number, floorBytes: number): string[] => {
    const station = sampleStation({ disk: { freeBytes, totalBytes: 960e9, floorBytes } });
    return houseFindings(station, [sampleFrame('a', 20)], null).map(({ finding }) => finding.code);
  };
  expect(codes(1.05e9, 1.07e9)).toEqual(['page.disk-full']);
  expect(codes(0, 0)).toEqual(['page.disk-full']);
  expect(codes(1.07e9, 1.07e9)).toEqual(['page.disk-nearly-full']);
  expect(codes(412e9, 411.9e9)).toEqual(['page.disk-nearly-full']);
});

test.each(['copy.originals-bad', 'copy.original-missing', 'copy.original-differs'])(
  'an original that is not as the camera sent it (%s) is bad and comes before everything: a card may be wiped meanwhile',
  (code) => {
    const disk = { freeBytes: 1e9, totalBytes: 960e9, floorBytes: 0 };
    const station = sampleStation({ secondPlaces: [place('copy.away'), place(code)], disk });
    const found = houseFindings(station, [brokenOff], null);
    expect(found[0]).toMatchObject({ judgement: 'bad', finding: { code } });
    expect(found.map(({ finding }) => finding.code)).toContain('page.disk-nearly-full');
  },
);

test('an original that reading found bad comes first though there is no second place, and is told once where there is', () => {
  const bad = { code: 'keep.originals-bad', args: { original: 'jobs/a/originals/cam1/A.DNG', count: 1 } };
  const disk = { freeBytes: 1e9, totalBytes: 960e9, floorBytes: 0 };
  const alone = houseFindings(sampleStation({ secondPlaces: [], kept: [bad], disk }), [brokenOff], null);
  expect(alone[0]).toMatchObject({ judgement: 'bad', finding: bad });
  const two = sampleStation({ secondPlaces: [place('copy.originals-bad')], kept: [bad] });
  expect(houseFindings(two, [], null).map(({ finding }) => finding.code)).toEqual(['keep.originals-bad']);
});

test('a journal that cannot be read in part is told in the house, not on the terminal alone', () => {
  const damaged = { code: 'keep.journal-damaged', args: { seqFrom: 3, seqTo: 4, count: 2 } };
  const found = houseFindings(sampleStation({ kept: [damaged] }), [brokenOff], null);
  expect(found.map(({ finding }) => finding.code)).toEqual(['keep.journal-damaged', 'page.broken-off']);
});

test('a second place on the same disk stays a doubt behind what broke off: it is as it was set up', () => {
  const station = sampleStation({ secondPlaces: [place('copy.same-device')] });
  const found = houseFindings(station, [brokenOff], null);
  expect(found.map(({ finding }) => finding.code)).toEqual(['page.broken-off', 'copy.same-device']);
});
