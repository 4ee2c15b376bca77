import { expect, test } from 'vitest';
import { NewestFirst } from './job-queue.ts';

test('the newest goes first, whatever the order of adding', () => {
  const queue = new NewestFirst<string>();
  queue.add('a', 10, 'old');
  queue.add('b', 30, 'new');
  queue.add('c', 20, 'middle');
  expect([queue.take(), queue.take(), queue.take(), queue.take()]).toEqual([
    'new',
    'middle',
    'old',
    undefined,
  ]);
});

test('the same work added again waits once, with its newer time', () => {
  const queue = new NewestFirst<string>();
  queue.add('a', 10, 'first');
  queue.add('b', 20, 'other');
  queue.add('a', 30, 'again');
  expect(queue.length).toBe(2);
  expect(queue.take()).toBe('again');
});
