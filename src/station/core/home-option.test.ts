import { execFileSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { homeOption } from './home-option.ts';

test.each(['/srv/Setside', '/srv/two words', "/srv/anna's $HOME"])(
  'a shell takes %s for one word, as it is',
  (home) => {
    // The judge is the system's own shell (POSIX, section 2.2).
    const words = execFileSync('/bin/sh', ['-c', `printf '%s\\n' ${homeOption(home)}`], { encoding: 'utf8' });
    expect(words).toBe(`--home\n${home}\n`);
  },
);

test('a path that needs no quotes has none', () => {
  expect(homeOption('/srv/Setside')).toBe('--home /srv/Setside');
  expect(homeOption('D:\\Setside')).toBe('--home D:\\Setside');
});
