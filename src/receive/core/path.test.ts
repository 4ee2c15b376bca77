import { posix } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { defaultFtpLimits } from '../ftp/core/limits.ts';
import { nameOf, parentOf, resolvePath } from './path.ts';

const resolve = (cwd: string, argument: string) => resolvePath(cwd, argument, defaultFtpLimits);
const path = (cwd: string, argument: string): string => {
  const resolved = resolve(cwd, argument);
  return resolved.kind === 'path' ? resolved.path : resolved.why;
};

test('3.1 relative, absolute, empty and dotted parts resolve within the folder', () => {
  expect(path('/', 'a')).toBe('/a');
  expect(path('/a/b', 'c')).toBe('/a/b/c');
  expect(path('/a/b', '/c//d/./e/')).toBe('/c/d/e');
  expect(path('/a/b', '..')).toBe('/a');
  expect(path('/a', '../../../etc/x')).toBe('/etc/x');
  expect(path('/', '..')).toBe('/');
  expect(path('/a', '..\\..\\x')).toBe('/x');
});

test('3.1 ordinary paths resolve as POSIX has it (node:path posix as judge)', () => {
  const name = fc.constantFrom('a', 'b.dng', '..', '.', '', 'c d', '...');
  const paths = fc.array(name, { maxLength: 10 }).map((names) => names.join('/'));
  fc.assert(
    fc.property(paths, paths, (cwd, argument) => {
      const from = path('/', cwd);
      expect(path(from, argument)).toBe(posix.resolve(from, argument));
    }),
  );
});

test('3.1 whatever is sent, a path has no empty part, no dots, no backslash and no control character', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 80 }), (argument) => {
      const resolved = resolve('/a/b', argument);
      if (resolved.kind === 'refused') return;
      const names = resolved.path === '/' ? ['root'] : resolved.path.slice(1).split('/');
      expect(names.filter((name) => ['', '.', '..'].includes(name) || /[\\\p{Cc}]/u.test(name))).toEqual([]);
    }),
    { numRuns: 2000 },
  );
});

test('3.2 a name of 255 bytes is taken, one of 256 is not, counted in UTF-8', () => {
  expect(path('/', 'n'.repeat(255))).toBe(`/${'n'.repeat(255)}`);
  expect(path('/', 'n'.repeat(256))).toBe('name-too-long');
  expect(path('/', 'é'.repeat(127))).toBe(`/${'é'.repeat(127)}`);
  expect(path('/', 'é'.repeat(128))).toBe('name-too-long');
});

test('3.2 sixteen names deep is taken, seventeen is not', () => {
  expect(path('/', 'd/'.repeat(16))).toBe(`/${Array.from({ length: 16 }, () => 'd').join('/')}`);
  expect(path('/', 'd/'.repeat(17))).toBe('too-deep');
});

test('3.2 C0, DEL and C1 are refused, the characters beside them are not', () => {
  for (const character of ['\u0000', '\u001f', '\u007f', '\u0080', '\u009f']) {
    expect(path('/', `a${character}b`)).toBe('control-character');
  }
  for (const character of ['\u0020', '\u007e', '\u00a0'])
    expect(path('/', `a${character}b`)).toBe(`/a${character}b`);
});

test('the parent and the name of a path', () => {
  expect([parentOf('/a/b'), nameOf('/a/b')]).toEqual(['/a', 'b']);
  expect([parentOf('/a'), nameOf('/a')]).toEqual(['/', 'a']);
  expect([parentOf('/'), nameOf('/')]).toEqual(['/', '']);
});
