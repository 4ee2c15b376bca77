import { expect, test } from 'vitest';
import { shotlessReasons } from '../facts/index.ts';
import { shotlessPhrase, shotlessSentence } from './shotless-words.ts';

test('of each reason why a frame belongs to no shot the sentence is another, and ends with what to do', () => {
  const said = shotlessReasons.map(shotlessSentence);
  expect(new Set(said).size).toBe(shotlessReasons.length);
  for (const sentence of said) expect(sentence).toMatch(/^In no shot: .*Choose its shot here\.$/);
});

test('of many the reasons are counted, the most first, and the Job page is named where it is needed', () => {
  expect(
    shotlessPhrase(
      new Map([
        ['no-current', 2],
        ['no-shots', 9],
      ]),
    ),
  ).toBe(
    '9 came before the first shot was named, 2 came while no shot was the current one. Shots are named on the Job page. Take them in hand and choose “To a shot” below.',
  );
  expect(shotlessPhrase(new Map([['by-hand', 1]]))).toBe(
    '1 put here by hand. Take it in hand and choose “To a shot” below.',
  );
  expect(shotlessPhrase(new Map())).toBe('');
});
