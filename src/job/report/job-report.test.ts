import { expect, test } from 'vitest';
import type { StrikeCheck } from '../strike/strike-check.ts';
import { lineOf } from '../strike/strike-line.ts';
import { jobReport, type ReportInput } from './job-report.ts';
import { reportFrame } from './testing/report-frame.ts';

const gap = lineOf({
  cost: 'card',
  explainable: true,
  finding: { code: 'strike.gap', args: { camera: 'cam1', from: 4, to: 6, count: 3 } },
});
const end = lineOf({
  cost: 'card',
  explainable: true,
  accepted: { name: 'Ines', reason: 'test shots' },
  finding: { code: 'strike.numbers-missing', args: { camera: 'cam1', from: 9, to: 9, count: 1 } },
});
const noHero = lineOf({ cost: 'reshoot', shot: 'mug', finding: { code: 'strike.no-hero', args: {} } });
const check: StrikeCheck = {
  ready: false,
  open: [noHero, gap],
  accepted: [end],
  shots: [
    {
      id: 'mug',
      name: 'Mug',
      heroesWanted: 2,
      selectsWanted: 1,
      chosen: [],
      agreement: 'missing',
      lines: [noHero],
    },
  ],
  cameras: [],
  frames: 5,
};
const input: ReportInput = {
  check,
  frames: [
    reportFrame('A', { mark: 'hero', lightEv: 0.1 }),
    reportFrame('B', { mark: 'out', lightEv: 2 }),
    reportFrame('C', { purpose: 'test', lightEv: 2 }),
    reportFrame('D', { shot: null, lightEv: -0.2, momentMs: 7 }),
    reportFrame('E', { shot: 'gone' }),
  ],
  clocks: [],
  lightLimit: { good: 0.15, bad: 0.5 },
  secondPlaces: 1,
  signed: null,
};

test('a shot is counted against what was wanted; what is out, or no picture, is no picture of it', () => {
  const { shots, shotless, frames } = jobReport(input);
  expect(shots).toEqual([
    {
      name: 'Mug',
      pictures: 1,
      heroes: { there: 1, wanted: 2 },
      selects: { there: 0, wanted: 1 },
      agreement: 'missing',
      open: 1,
      accepted: 0,
    },
  ]);
  expect([frames, shotless]).toEqual([5, 2]);
});

test('light is told of pictures alone, with its limit, and how many it is not known of', () => {
  const { light } = jobReport(input);
  expect(light.points).toEqual([
    { name: 'A', shot: 'Mug', atMs: 0, ev: 0.1, judgement: 'good' },
    { name: 'D', shot: null, atMs: 7, ev: -0.2, judgement: 'doubt' },
  ]);
  expect(light.unknown).toBe(1);
  const [first] = jobReport({ ...input, frames: [reportFrame('X', { lightEv: -0.51 })] }).light.points;
  expect(first?.judgement).toBe('bad');
});

test('numbers that never came are added up, explained ones too, and both lines are told', () => {
  const { numbers } = jobReport(input);
  expect(numbers.missing).toBe(4);
  expect(numbers.lines).toEqual([gap, end]);
});

test('a file counts as copied where a copy on another device was read back; what is not whole is told apart', () => {
  const file = { name: 'x', state: 'whole', copies: 1, readBack: 'direct' } as const;
  const { copies } = jobReport({
    ...input,
    frames: [
      reportFrame('A', { files: [file, { ...file, readBack: 'cached' }] }),
      reportFrame('B', { files: [{ ...file, copies: 0, readBack: null }] }),
      reportFrame('C', {
        files: [
          { ...file, state: 'unproved' },
          { ...file, state: 'damaged', copies: 1 },
          { ...file, state: 'arriving' },
        ],
      }),
      reportFrame('D', { mark: 'out', files: [{ ...file, copies: 0 }] }),
    ],
  });
  expect(copies).toEqual({ secondPlaces: 1, files: 4, twice: 3, direct: 2, notWhole: 2 });
});

test('targets are told in the order of the day, with what they were held against', () => {
  const colour = {
    meanDeltaE00: 2.1,
    maxDeltaE00: 5.5,
    deliveredMeanDeltaE00: null,
    meanLimit: { good: 4, bad: 7 },
    maxLimit: { good: 10, bad: 16 },
    judgement: 'good',
  } as const;
  const { colour: told } = jobReport({
    ...input,
    frames: [reportFrame('A'), reportFrame('T', { purpose: 'target', colour, momentMs: 3 })],
  });
  expect(told).toEqual([{ ...colour, name: 'T', shot: 'Mug', atMs: 3 }]);
});

test('of an empty job nothing is known, and nothing is made up', () => {
  const report = jobReport({ ...input, frames: [], check: { ...check, shots: [] } });
  expect(report.colour).toEqual([]);
  expect(report.light).toMatchObject({ points: [], unknown: 0 });
  expect(report.times.steps.every(({ p50S, maxS }) => p50S === null && maxS === null)).toBe(true);
});
