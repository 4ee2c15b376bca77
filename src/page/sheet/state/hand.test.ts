import { expect, test } from 'vitest';
import { emptyHand, type Hand, type HandAction, handled, reduceHand } from './hand.ts';

const lying = ['a', 'b', 'c', 'd', 'e'];
const after = (...actions: HandAction[]): Hand => actions.reduce(reduceHand, emptyHand);
const held = (hand: Hand): string => [...hand.ids].sort().join('');

test('one is taken, more are added one by one and laid down again', () => {
  const two = after({ type: 'take', id: 'b' }, { type: 'add', id: 'd' });
  expect([held(two), two.at]).toEqual(['bd', 'd']);
  expect(held(reduceHand(two, { type: 'add', id: 'b' }))).toBe('d');
  expect(held(reduceHand(two, { type: 'take', id: 'a' }))).toBe('a');
});

test('a range goes from where it began, whichever way, and can be drawn anew', () => {
  const start = after({ type: 'take', id: 'c' });
  const down = reduceHand(start, { type: 'reach', id: 'e', lying });
  expect(held(down)).toBe('cde');
  expect(held(reduceHand(down, { type: 'reach', id: 'b', lying }))).toBe('bc');
  // What a filter has taken away cannot begin a range.
  expect(held(reduceHand(start, { type: 'reach', id: 'e', lying: ['d', 'e'] }))).toBe('e');
});

test('what is done is done to what is in hand, else to where the keys are, and never to what is not seen', () => {
  const hand = after({ type: 'take', id: 'b' }, { type: 'add', id: 'd' });
  expect(handled(hand, new Set(lying))).toEqual(['b', 'd']);
  expect(handled(hand, new Set(['d']))).toEqual(['d']);
  const tabbed = after({ type: 'go', id: 'd' });
  expect(handled(tabbed, new Set(lying))).toEqual(['d']);
  expect(handled(tabbed, new Set(['a']))).toEqual([]);
});

test('what was let go is in hand no longer, though the keys are still there, until they go on', () => {
  const empty = after({ type: 'take', id: 'b' }, { type: 'empty' });
  expect([handled(empty, new Set(lying)), empty.at]).toEqual([[], 'b']);
  expect(handled(reduceHand(empty, { type: 'go', id: 'b' }), new Set(lying))).toEqual([]);
  expect(handled(reduceHand(empty, { type: 'go', id: 'c' }), new Set(lying))).toEqual(['c']);
  expect(handled(reduceHand(empty, { type: 'add', id: 'b' }), new Set(lying))).toEqual(['b']);
});
