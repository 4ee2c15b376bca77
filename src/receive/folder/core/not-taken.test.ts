import { expect, test } from 'vitest';
import { MissedFiles } from './not-taken.ts';

test('12.10 what is not taken is named once and counted each time that changes', () => {
  const missed = new MissedFiles();
  const link = { path: 'a.jpg', why: 'link' } as const;
  const name = { path: 'b.jpg', why: 'not-utf-8' } as const;
  expect(missed.tell([], '/card')).toEqual([]);
  expect(missed.tell([link], '/card')).toEqual([
    { code: 'line.watch-link', args: { name: 'a.jpg' } },
    { code: 'line.watch-not-taken', args: { folder: '/card', count: 1, name: 'a.jpg' } },
  ]);
  expect(missed.tell([link], '/card')).toEqual([]);
  expect(missed.tell([name, link], '/card').map(({ code }) => code)).toEqual([
    'line.watch-name',
    'line.watch-not-taken',
  ]);
  expect(missed.tell([], '/card')).toEqual([{ code: 'line.watch-none-missed', args: { folder: '/card' } }]);
});

test('12.10 of many only the first are named, and all are counted', () => {
  const many = Array.from({ length: 500 }, (_, n) => ({ path: `${n}.jpg`, why: 'link' }) as const);
  const told = new MissedFiles().tell(many, '/card');
  expect(told).toHaveLength(21);
  expect(told.at(-1)?.args.count).toBe(500);
});
