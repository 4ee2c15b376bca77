import { expect, test } from 'vitest';
import { Expectations } from './expectations.ts';

test('what a camera sends holds for frames kept after it was said', () => {
  const expectations = new Expectations();
  expectations.set('cam1', 'both', 1000);
  expect(expectations.of('cam1')).toBe('both');
  expect([999, 1000, 2000].map((keptMs) => expectations.at('cam1', keptMs))).toEqual([null, 'both', 'both']);
  expect(expectations.at('cam2', 2000)).toBeNull();
});
