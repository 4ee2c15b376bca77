import { mkdirSync, mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { checkSecondPlaces, overlap } from './own-folders.ts';

const root = mkdtempSync(join(tmpdir(), 'setside-own-'));
const home = join(root, 'home');
mkdirSync(join(home, 'jobs'), { recursive: true });
mkdirSync(join(root, 'one'));
symlinkSync(home, join(root, 'link'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const refused = (...folders: string[]): string => {
  try {
    checkSecondPlaces(home, folders);
    return '';
  } catch (thrown) {
    expect(thrown).toMatchObject({ code: 'bad-option', cure: expect.stringMatching(/^(Name|Choose) /) });
    return thrown instanceof Error ? thrown.message : '';
  }
};

test('places beside the home and beside one another are taken, whether they are there yet or not', () => {
  expect(refused()).toBe('');
  expect(refused(join(root, 'one'), join(root, 'two'), join(root, 'home-2'), join(root, '..two'))).toBe('');
});

test('a place without a name is refused: it would be the folder that the station was started in', () => {
  expect(refused('')).toMatch(/without a name/);
  expect(refused(' ')).toMatch(/without a name/);
});

test('the home, what lies in it, what holds it, and links to these are refused', () => {
  const names = [
    home,
    `${home}/`,
    join(home, 'jobs'),
    join(home, 'not-yet'),
    root,
    '/',
    join(root, 'link'),
    join(root, 'link/not-yet/there'),
    relative(process.cwd(), home),
  ];
  for (const name of names) expect(refused(name), name).toMatch(/and the home .* overlap/);
});

test('a place within another, or the same twice, is refused', () => {
  expect(refused(join(root, 'one'), join(root, 'one/deeper'))).toMatch(/overlap/);
  expect(refused(join(root, 'one/deeper'), join(root, 'one'))).toMatch(/overlap/);
  expect(refused(join(root, 'one'), `${join(root, 'one')}/.`)).toMatch(/overlap/);
});

test('a name that only begins alike, or with dots, does not overlap', () => {
  expect(overlap(join(root, 'one'), join(root, 'one-more'))).toBe(false);
  expect(overlap(root, join(root, '..dots'))).toBe(true);
});
