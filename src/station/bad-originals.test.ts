import { expect, test } from 'vitest';
import { BadOriginals } from './bad-originals.ts';

test('each change is told once, with its frame, whoever found it first', () => {
  const bad = new BadOriginals();
  const told: string[] = [];
  bad.onChange((frame) => void told.push(`${frame} ${bad.of('a1')}`));
  const file = { arrival: 'a1', frame: 'f1' };
  bad.found(file, null);
  bad.found(file, 'differs');
  bad.found(file, 'differs');
  bad.found(file, null);
  expect(told).toEqual(['f1 differs', 'f1 null']);
});
