import { expect, test } from 'vitest';
import { tabStop } from './tab-stop.ts';

const cell = (part: 'hero' | 'select' | 'frame', id: string) => ({ key: `${part} ${id}`, part, id });

test('Tab leads where the keys are', () => {
  expect(
    tabStop([cell('hero', 'b'), cell('frame', 'a'), cell('frame', 'b')], { at: 'b', chosen: false }),
  ).toBe('frame b');
  // Among the chosen above, while it is one.
  expect(tabStop([cell('hero', 'b'), cell('frame', 'b')], { at: 'b', chosen: true })).toBe('hero b');
  expect(tabStop([cell('hero', 'a'), cell('frame', 'b')], { at: 'b', chosen: true })).toBe('frame b');
});

test('Tab leads to a cell that is drawn where the keys are out of sight, or have been nowhere', () => {
  for (const at of [null, 'gone']) {
    expect(tabStop([cell('hero', 'b'), cell('frame', 'a')], { at, chosen: false })).toBe('frame a');
    // Large heroes fill all that is drawn: the small ones lie below.
    expect(tabStop([cell('hero', 'b'), cell('select', 'c')], { at, chosen: false })).toBe('hero b');
    expect(tabStop([], { at, chosen: false })).toBeNull();
  }
});
