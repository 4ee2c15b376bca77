import { expect, test } from 'vitest';
import { shotNamed } from './shot-named.ts';

const shots = [
  { id: 'teapot', name: 'Teapot' },
  { id: 'mug', name: 'Mug' },
  { id: 'teapot-2', name: 'teapot' },
  { id: 'bowl', name: 'mug-2' },
  { id: 'mug-2', name: 'Cup' },
];

test('a shot is meant by its name in any case, by its id, and by id= and its id', () => {
  expect(
    ['MUG', 'mug', 'teapot-2', 'id=teapot', 'id=mug-2'].map((words) => shotNamed('QM', shots, words)),
  ).toEqual(['mug', 'mug', 'teapot-2', 'teapot', 'mug-2']);
});

test.each([
  ['Teapot', 'id=teapot (number 1), id=teapot-2 (number 3)'],
  ['teapot', 'id=teapot (number 1), id=teapot-2 (number 3)'],
  // The name of one is the id of another.
  ['mug-2', 'id=bowl (number 4), id=mug-2 (number 5)'],
])('%s means several and is refused with the ids of all', (words, ids) => {
  expect(() => shotNamed('QM', shots, words)).toThrow(
    expect.objectContaining({ code: 'several-shots', cure: `Say which: ${ids}.` }),
  );
});

test('a shot that is not there is refused with those that are', () => {
  for (const words of ['Jug', 'id=Jug'])
    expect(() => shotNamed('QM', shots, words)).toThrow(
      expect.objectContaining({ code: 'no-shot', cure: 'It has Teapot, Mug, teapot, mug-2, Cup.' }),
    );
});
