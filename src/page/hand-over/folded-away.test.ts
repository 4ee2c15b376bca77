import { expect, test } from 'vitest';
import { foldedAway } from './folded-away.ts';

test('what goes on, waits or came last is seen; what is over is folded away', () => {
  const of = (...states: readonly ('running' | 'paused' | 'done' | 'aborted')[]) =>
    foldedAway(states.map((state, id) => ({ state, id })));
  const ids = (list: readonly { readonly id: number }[]): number[] => list.map(({ id }) => id);
  const { shown, folded } = of('done', 'done', 'running', 'aborted', 'paused', 'done');
  expect(ids(shown)).toEqual([0, 2, 4]);
  expect(ids(folded)).toEqual([1, 3, 5]);
  expect(of()).toEqual({ shown: [], folded: [] });
  expect(of('aborted').folded).toEqual([]);
});
