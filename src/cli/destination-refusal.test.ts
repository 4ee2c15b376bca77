import { expect, test } from 'vitest';
import { SetsideError } from '../base/index.ts';
import { inWordsOfDestination } from './destination-refusal.ts';

test('a destination that is not there is named, with the commands that help; whatever else went wrong stays as it is', () => {
  const told = inWordsOfDestination(new SetsideError('no-destination', 'x'), 'pr');
  expect(told).toMatchObject({ code: 'no-destination', message: 'There is no destination pr' });
  expect(told instanceof SetsideError && told.cure).toContain('setside destination add pr');
  const other = new SetsideError('no-job', 'x');
  expect(inWordsOfDestination(other, 'pr')).toBe(other);
});
