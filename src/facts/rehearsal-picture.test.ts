import { expect, test } from 'vitest';
import { isOfTheShoot, isRehearsalPicture, rehearsalPictureName } from './rehearsal-picture.ts';

test('a rehearsal’s picture is known by its name, also where that was taken and got a number', () => {
  for (const name of [rehearsalPictureName, 'rehearse.jpg', 'DCIM/REHEARSE-2.JPG', 'REHEARSE (3).JPG'])
    expect(isRehearsalPicture(name), name).toBe(true);
});

test('no name of a camera is taken for one', () => {
  // File names after DCF, JEITA CP-3461 (from memory): four free characters, then 0001 to 9999; "_" first for Adobe RGB.
  for (const name of [
    'REHE0001.JPG',
    '_EHE9999.JPG',
    'ABCD0001.JPG',
    'REHEARSE.ARW',
    'REHEARSED.JPG',
    'REHEARSE0001.JPG',
  ])
    expect(isRehearsalPicture(name), name).toBe(false);
});

test('a rehearsal’s picture counts nowhere while it is a test; any other test does', () => {
  expect(isOfTheShoot({ name: rehearsalPictureName, purpose: 'test' })).toBe(false);
  expect(isOfTheShoot({ name: rehearsalPictureName, purpose: 'picture' })).toBe(true);
  expect(isOfTheShoot({ name: 'ABCD0001.JPG', purpose: 'test' })).toBe(true);
});
