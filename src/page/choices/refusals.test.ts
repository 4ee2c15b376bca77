import { expect, test } from 'vitest';
import { begun, forgotten, noRefusals, refusalWords, refused, taken } from './refusals.ts';

test('a call that is taken says nothing of another thing that was refused', () => {
  const after = begun(refused(begun(noRefusals), 'Mark', 'No.'));
  expect(refusalWords(taken(after, 'To a shot', after.moment))).toBe('Mark: No.');
  expect(refusalWords(taken(after, 'Mark', after.moment))).toBe('');
});

test('a refusal that is said while a call is under way outlasts its answer', () => {
  const first = begun(noRefusals);
  const second = begun(first);
  const said = refused(second, '', 'No.');
  expect(refusalWords(taken(said, '', first.moment))).toBe('No.');
  expect(refusalWords(taken(said, '', second.moment))).toBe('No.');
  const third = begun(said);
  expect(refusalWords(taken(third, '', third.moment))).toBe('');
});

test('two that are refused are both told; what became known of one takes that one away', () => {
  const both = refused(refused(noRefusals, 'Mark', 'No.'), 'Order', 'Changed.');
  expect(refusalWords(both)).toBe('Mark: No. Order: Changed.');
  expect(refusalWords(forgotten(both, 'Mark'))).toBe('Order: Changed.');
});
