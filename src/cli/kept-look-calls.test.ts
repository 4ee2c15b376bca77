import { expect, test } from 'vitest';
import { lookNamed } from './kept-look-calls.ts';

const look = (id: string, name: string, version: number, laidAside = false) => ({
  id,
  name,
  version,
  laidAside,
});
/** As the station lists them: the newest of each name first. */
const looks = [
  look('e3', 'Evening', 3, true),
  look('e2', 'evening', 2),
  look('e1', 'Evening', 1),
  look('n1', 'Evening 1', 1),
];
const meant = (words: string) => lookNamed(looks, words).id;

test('a look is meant by its name in any case, then the newest that is not laid aside, and by its id', () => {
  expect([' EVENING ', 'e1'].map(meant)).toEqual(['e2', 'e1']);
});

test('name and number mean that version, laid aside or not; a look of just that name goes before', () => {
  expect(['evening 3', 'Evening 2', 'Evening 1', 'Evening 1 1'].map(meant)).toEqual(['e3', 'e2', 'n1', 'n1']);
});

test('a name of none is refused with those there are', () => {
  expect(() => meant('Dusk')).toThrow(
    expect.objectContaining({ code: 'no-such-look', cure: 'Those that are kept: Evening, Evening 1.' }),
  );
  expect(() => lookNamed([], 'Dusk')).toThrow(
    expect.objectContaining({ cure: 'setside look save FILE keeps one.' }),
  );
});
