import { expect, test } from 'vitest';
import { notInIt } from './bag.ts';

test('what of a job is not in its bag is said, file counts and deliveries alike', () => {
  expect(notInIt({ unfinished: 0, leftOut: [] })).toEqual([]);
  const lines = notInIt({
    unfinished: 1,
    leftOut: [{ code: 'bag.delivery-under-way', args: { title: 'Square P3' } }],
  });
  expect(lines).toHaveLength(2);
  expect(lines[0]).toContain('1 file of this job');
  // The cure stands with it.
  expect(lines[1]).toMatch(/Square P3.*not in the package.*Pack the job again/);
});
