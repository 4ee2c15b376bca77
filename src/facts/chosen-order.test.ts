import { describe, expect, it } from 'vitest';
import { inChosenOrder } from './chosen-order.ts';

const frame = (id: string, mark: 'hero' | 'select' | 'none' | 'out') => ({ id, mark });
const taken = [
  frame('1', 'select'),
  frame('2', 'hero'),
  frame('3', 'none'),
  frame('4', 'select'),
  frame('5', 'hero'),
  frame('6', 'out'),
];
const ids = (order: readonly string[]) => inChosenOrder(taken, order).map(({ id }) => id);

describe('the order of a shot', () => {
  it('has heroes, then selects, then the others, each as they were taken', () => {
    expect(ids([])).toEqual(['2', '5', '1', '4', '3', '6']);
  });

  it('has heroes among themselves, and selects, as somebody put them', () => {
    expect(ids(['4', '5', '1', '2'])).toEqual(['5', '2', '4', '1', '3', '6']);
  });

  it('has one that was put nowhere behind those that were', () => {
    expect(ids(['4', '5'])).toEqual(['5', '2', '4', '1', '3', '6']);
  });

  it('heeds no id that is not there, and nothing of what was put in order and is not chosen any more', () => {
    expect(ids(['gone', '6', '4'])).toEqual(['2', '5', '4', '1', '3', '6']);
  });
});
