import fc from 'fast-check';
import { expect, test } from 'vitest';
import { judgements } from '../../facts/index.ts';
import { type Backlog, ended, gravest, nothingToSay, take, wordHeardMs } from './backlog.ts';
import type { Telling } from './telling.ts';

const told = (frame: string, judgement: Telling['judgement']): Telling => ({
  frame,
  judgement,
  finding: null,
  question: null,
  accepted: false,
});
const names = ({ saying }: Backlog): string[] => saying.map(({ frame }) => frame);

test('where nothing is said a frame is said at once', () => {
  expect(names(take(nothingToSay, told('a', 'good'), 0))).toEqual(['a']);
});

test('what comes while something is said waits, and is summed up when that has ended', () => {
  let backlog = take(nothingToSay, told('a', 'doubt'), 0);
  for (const [frame, judgement] of [
    ['b', 'good'],
    ['c', 'doubt'],
    ['d', 'good'],
    ['e', 'good'],
  ] as const)
    backlog = take(backlog, told(frame, judgement), 100);
  expect(names(backlog)).toEqual(['a']);
  backlog = ended(backlog, 900);
  expect(names(backlog)).toEqual(['b', 'c', 'd', 'e']);
  expect(gravest(backlog.saying)).toBe('doubt');
  expect(names(ended(backlog, 2000))).toEqual([]);
});

test('the newest wins once the word has been heard; something graver wins at once', () => {
  const saying = take(nothingToSay, told('a', 'doubt'), 0);
  expect(names(take(saying, told('b', 'good'), wordHeardMs - 1))).toEqual(['a']);
  expect(names(take(saying, told('b', 'good'), wordHeardMs))).toEqual(['b']);
  expect(names(take(saying, told('b', 'bad'), 1))).toEqual(['b']);
});

test('a frame whose answer changes while it waits is said once, with the newer answer', () => {
  let backlog = take(nothingToSay, told('a', 'bad'), 0);
  backlog = take(backlog, told('b', 'good'), 1);
  backlog = take(backlog, told('b', 'doubt'), 2);
  expect(ended(backlog, 3).saying).toEqual([told('b', 'doubt')]);
});

test('whatever comes and whenever: every frame is begun once or waits, and nothing is said over itself', () => {
  const step = fc.record({
    judgement: fc.constantFrom(...judgements),
    gapMs: fc.nat(2500),
    ends: fc.boolean(),
  });
  fc.assert(
    fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
      let [backlog, nowMs] = [nothingToSay, 0];
      const begun: string[] = [];
      const go = (next: Backlog): void => {
        if (next.saying !== backlog.saying) begun.push(...names(next));
        backlog = next;
      };
      steps.forEach(({ judgement, gapMs, ends }, index) => {
        nowMs += gapMs;
        if (ends) go(ended(backlog, nowMs));
        go(take(backlog, told(`f${index}`, judgement), nowMs));
      });
      const waiting = backlog.waiting.map(({ frame }) => frame);
      expect([...begun, ...waiting]).toEqual(steps.map((_, index) => `f${index}`));
    }),
  );
});
