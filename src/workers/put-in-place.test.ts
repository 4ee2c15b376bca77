import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, expect, test } from 'vitest';
import { putInPlace } from './put-in-place.ts';

const folder = mkdtempSync(join(tmpdir(), 'setside-place-'));
afterAll(() => rmSync(folder, { recursive: true }));

const fresh = join(folder, 'fresh');
const target = join(folder, 'A_0001.jpg');

beforeEach(() => {
  rmSync(target, { force: true });
  writeFileSync(fresh, 'rendered');
});

test('a free name is given to the file, and nothing else is left', async () => {
  await putInPlace(fresh, target, false);
  expect(readFileSync(target, 'utf8')).toBe('rendered');
  expect(readdirSync(folder)).toEqual(['A_0001.jpg']);
});

test('what lies under the name stays as it is, and the refused file is cleared away', async () => {
  writeFileSync(target, 'the photographer’s');
  await expect(putInPlace(fresh, target, false)).rejects.toMatchObject({ code: 'output-exists' });
  expect(readFileSync(target, 'utf8')).toBe('the photographer’s');
  expect(readdirSync(folder)).toEqual(['A_0001.jpg']);
});

test('it is replaced where that was asked for', async () => {
  writeFileSync(target, 'an earlier rendering');
  await putInPlace(fresh, target, true);
  expect(readFileSync(target, 'utf8')).toBe('rendered');
});
