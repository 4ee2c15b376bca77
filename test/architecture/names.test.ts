import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const root = join(import.meta.dirname, '../..');
const text = readFileSync(join(root, 'ARCHITECTURE.md'), 'utf8');
const quoted = [...text.matchAll(/`([^`\n]+)`/g)].map((match) => match[1] ?? '');

/** Words in quotes that are protocol, not code of ours. */
const notOurs = new Set([
  'STOR',
  '226',
  'good',
  'originals/',
  'incoming/',
  'station',
  'npm start',
  '--json',
  'job',
  'deliver',
  'line',
]);

test('every path that ARCHITECTURE.md names is there', () => {
  const paths = quoted.filter((name) => /^(src|test|bin|scripts|docs)\//.test(name));
  expect(paths.length).toBeGreaterThan(8);
  expect(paths.filter((path) => !existsSync(join(root, path)))).toEqual([]);
});

test('every name of a type or function that ARCHITECTURE.md uses is declared in src', () => {
  const names = quoted.filter(
    (name) => /^[A-Za-z]+$/.test(name) && !notOurs.has(name) && /[A-Z]|^sentence$/.test(name),
  );
  const source = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => readFileSync(join(root, 'src', name), 'utf8'))
    .join('\n');
  const missing = names.filter(
    (name) => !new RegExp(`(class|function|interface|type|const) ${name}\\b`).test(source),
  );
  expect(names.length).toBeGreaterThan(15);
  expect(missing).toEqual([]);
});

test('every room of src is on the page, and the page names no room that is not there', () => {
  const rooms = readdirSync(join(root, 'src'), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => name);
  const unnamed = rooms.filter((room) => !new RegExp(`\\*\\*${room}\\*\\*`).test(text));
  expect(unnamed).toEqual([]);
  expect(rooms.filter((room) => !existsSync(join(root, 'src', room, 'README.md')))).toEqual([]);
});
