import { expect, test } from 'vitest';
import { defaultFtpLimits } from '../ftp/core/limits.ts';
import { ChangeBudget } from './change-budget.ts';

const limits = { ...defaultFtpLimits, changesPerSecondMax: 10, changesAtOnceMax: 3 };

test('8.4 so many changes at once wait for nothing, the next for its share of a second', () => {
  const budget = new ChangeBudget(limits);
  expect([1, 2, 3, 4, 5].map(() => budget.spend('a', 1000))).toEqual([0, 0, 0, 100, 200]);
  expect(budget.spend('b', 1000)).toBe(0);
});

test('8.4 a camera that is quiet has its whole budget again, and never more', () => {
  const budget = new ChangeBudget(limits);
  for (let change = 0; change < 5; change += 1) budget.spend('a', 0);
  expect(budget.spend('a', 600)).toBe(0);
  expect([1, 2, 3, 4].map(() => budget.spend('a', 100_000))).toEqual([0, 0, 0, 100]);
});

test('8.4 a camera that sends files, renames each and sets its time never waits', () => {
  const budget = new ChangeBudget(limits);
  for (let file = 0; file < 1000; file += 1) {
    expect(budget.spend('a', 0)).toBe(0);
    budget.earn('a');
    expect([budget.spend('a', 0), budget.spend('a', 0)]).toEqual([0, 0]);
  }
  const rude = new ChangeBudget(limits);
  const waits = Array.from({ length: 10 }, () => rude.spend('a', 0));
  expect(waits.at(-1)).toBe(700);
});
