import { expect, test } from 'vitest';
import type { PaperUnderWay } from '../../contract/index.ts';
import { papersAtOnceMax, tellEveryMs, UnderWay } from './under-way.ts';

const start = Date.UTC(2026, 10, 30, 9);

/** What was told of jobs, `JOB: done/frames` of each sheet, and a clock that a test moves. */
function told(): {
  readonly underWay: UnderWay;
  readonly said: string[];
  readonly later: (ms: number) => void;
} {
  let now = start;
  const said: string[] = [];
  const tell = (job: string, papers: readonly PaperUnderWay[]): void => {
    said.push(`${job}: ${papers.map(({ done, frames }) => `${done}/${frames}`).join(' ')}`);
  };
  return {
    underWay: new UnderWay(() => now, tell),
    said,
    later: (ms) => {
      now += ms;
    },
  };
}

test('a sheet is told as it begins, is counted, goes on and ends, once', () => {
  const { underWay, said, later } = told();
  const paper = underWay.begin('QM-26');
  paper.planned(9);
  later(tellEveryMs);
  paper.done(1);
  paper.end();
  paper.end();
  expect(said).toEqual(['QM-26: 0/null', 'QM-26: 0/9', 'QM-26: 1/9', 'QM-26: ']);
});

test('pictures that come quickly are told a few times a second', () => {
  const { underWay, said, later } = told();
  const paper = underWay.begin('QM-26');
  paper.planned(1000);
  for (let done = 1; done <= 1000; done++) {
    later(1);
    paper.done(done);
  }
  expect(said.slice(2)).toEqual([
    'QM-26: 250/1000',
    'QM-26: 500/1000',
    'QM-26: 750/1000',
    'QM-26: 1000/1000',
  ]);
  expect(underWay.of('QM-26')).toEqual([{ frames: 1000, done: 1000, started: '2026-11-30T09:00:00.000Z' }]);
});

test('sheets of one job are told together, those of another are not', () => {
  const { underWay, said } = told();
  underWay.begin('QM-26');
  const other = underWay.begin('QM-27');
  expect(said).toEqual(['QM-26: 0/null', 'QM-27: 0/null']);
  expect(() => underWay.begin('QM-28')).toThrow(expect.objectContaining({ code: 'busy', retryable: true }));
  other.end();
  const second = underWay.begin('QM-26');
  second.end();
  expect(said.slice(3)).toEqual(['QM-26: 0/null 0/null', 'QM-26: 0/null']);
  expect(papersAtOnceMax).toBe(2);
});

test('guests have one sheet at a time, so that one is left for the studio', () => {
  const { underWay } = told();
  const guest = underWay.begin('QM-26', true);
  expect(() => underWay.begin('QM-27', true)).toThrow(expect.objectContaining({ code: 'busy' }));
  underWay.begin('QM-26');
  guest.end();
  underWay.begin('QM-26', true);
  expect(() => underWay.begin('QM-26')).toThrow(expect.objectContaining({ code: 'busy' }));
});
