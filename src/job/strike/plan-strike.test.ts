import { describe, expect, test } from 'vitest';
import { applyJobChoice } from '../apply-choice.ts';
import type { JobChoice } from '../choice.ts';
import { type Jobs, noWords } from '../job.ts';
import { inverseOfJobChoices } from '../undo.ts';
import { planExplained, planLastNumber, planSigned, planUnexplained, planUnsigned } from './plan-strike.ts';
import type { StrikeCheck } from './strike-check.ts';
import { lineOf } from './strike-line.ts';
import { noStrike } from './strike-state.ts';

const made: readonly JobChoice[] = [{ type: 'job-described', job: 'A', ...noWords }];
const jobs: Jobs = made.reduce<Jobs>(applyJobChoice, new Map());
const chosen = (choices: readonly JobChoice[], from: Jobs = jobs): Jobs =>
  choices.reduce<Jobs>(applyJobChoice, from);
const strikeOf = (all: Jobs) => all.get('A')?.strike;
const closed = chosen([{ type: 'job-state-set', job: 'A', state: 'closed' }]);

const gap = lineOf({
  cost: 'card',
  explainable: true,
  finding: { code: 'strike.gap', args: { camera: 'cam1', from: 2, to: 3, count: 2 } },
});
const noHero = lineOf({ cost: 'reshoot', shot: 'mug', finding: { code: 'strike.no-hero', args: {} } });
const check: StrikeCheck = {
  ready: false,
  open: [noHero, gap],
  accepted: [],
  shots: [],
  cameras: [
    { camera: 'cam1', prefix: 'ST', frames: 4, newest: { name: 'QMST0004.DNG', counter: 4 }, said: null },
  ],
  frames: 4,
};
const number = { camera: 'cam1', prefix: 'ST', by: 'Ada', atMs: 7 };
const ready = { ready: true, open: [] };
const sign = { name: 'Ada', atMs: 8, state: 'a'.repeat(64), seen: 'a'.repeat(64) };

describe('what people say for the strike check', () => {
  test('a last number is replaced by a later one, and taken back it is what it was', () => {
    const first = chosen(planLastNumber(jobs, 'A', check, { ...number, counter: 4 }));
    const second = planLastNumber(first, 'A', check, { ...number, counter: 9 });
    expect(strikeOf(chosen(second, first))?.lastNumbers).toEqual([{ ...number, counter: 9 }]);
    const back = inverseOfJobChoices(first, second);
    expect(strikeOf(chosen(back, chosen(second, first)))).toEqual(strikeOf(first));
    const gone = planLastNumber(first, 'A', check, { ...number, counter: null });
    expect(strikeOf(chosen(gone, first))).toEqual(noStrike);
  });

  test('a number of a camera that sent nothing, and one that no camera shows, are refused', () => {
    const plan = (more: object) => () => planLastNumber(jobs, 'A', check, { ...number, counter: 4, ...more });
    expect(plan({ camera: 'cam9' })).toThrow(expect.objectContaining({ code: 'no-such-numbers' }));
    expect(plan({ counter: 0 })).toThrow(expect.objectContaining({ code: 'bad-number' }));
    expect(plan({ counter: 10_000 })).toThrow(expect.objectContaining({ code: 'bad-number' }));
    expect(plan({ counter: 9999 })).not.toThrow();
  });

  test('a line is explained by name and reason, and that is taken back', () => {
    const said = { line: gap.key, name: 'Ada', reason: 'tests of the flash', atMs: 7 };
    const choices = planExplained(jobs, 'A', check, said);
    expect(strikeOf(chosen(choices))?.explained).toEqual([said]);
    expect(strikeOf(chosen(planUnexplained(chosen(choices), 'A', gap.key), chosen(choices)))).toEqual(
      noStrike,
    );
    expect(planUnexplained(jobs, 'A', gap.key)).toEqual([]);
    expect(strikeOf(chosen(inverseOfJobChoices(jobs, choices), chosen(choices)))).toEqual(noStrike);
  });

  test('a line that is not there, or that nobody may explain away, is refused', () => {
    for (const line of ['strike.gap cam1 7', noHero.key])
      expect(() => planExplained(jobs, 'A', check, { line, name: 'Ada', reason: 'so', atMs: 7 })).toThrow(
        expect.objectContaining({ code: 'no-such-line' }),
      );
  });

  test('what is ready is signed as it was seen, and the signature is taken back', () => {
    const choices = planSigned(jobs, 'A', ready, sign);
    expect(strikeOf(chosen(choices))?.signed).toEqual({ name: 'Ada', atMs: 8, state: sign.state });
    expect(strikeOf(chosen(planUnsigned(chosen(choices), 'A'), chosen(choices)))).toEqual(noStrike);
    expect(strikeOf(chosen(inverseOfJobChoices(jobs, choices), chosen(choices)))).toEqual(noStrike);
    expect(planUnsigned(jobs, 'A')).toEqual([]);
  });

  test('what is not ready, or changed since it was seen, is not signed', () => {
    expect(() => planSigned(jobs, 'A', check, sign)).toThrow(
      expect.objectContaining({ code: 'strike-not-ready' }),
    );
    expect(() => planSigned(jobs, 'A', ready, { ...sign, seen: 'b'.repeat(64) })).toThrow(
      expect.objectContaining({ code: 'strike-changed' }),
    );
  });

  test('a closed job is taken up again first', () => {
    expect(() => planSigned(closed, 'A', ready, sign)).toThrow(
      expect.objectContaining({ code: 'job-finished' }),
    );
    expect(() => planLastNumber(closed, 'A', check, { ...number, counter: 4 })).toThrow(
      expect.objectContaining({ code: 'job-finished' }),
    );
  });
});
