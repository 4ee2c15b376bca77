import { expect, test } from 'vitest';
import { latelyLines, latelyOf } from './lately.ts';

const lines = (...codes: string[]) =>
  codes.map((code, second) => ({
    at: `2026-11-25T10:00:0${second}.000Z`,
    finding: { code: `line.${code}`, args: {} },
  }));
const shown = (...codes: string[]): string[] =>
  latelyOf(lines(...codes)).map(({ finding }) => finding.code.slice('line.'.length));

test('a wrong password is not pushed away by the uploads after it', () => {
  expect(shown('wrong-login', 'connected', 'logged-in', 'upload-started', 'upload-kept')).toEqual([
    'wrong-login',
    'logged-in',
    'upload-started',
    'upload-kept',
  ]);
});

test('of more troubles than there is room for, the newest are shown, in their order', () => {
  const broken = ['idle', 'upload-broken-off', 'wrong-login', 'upload-kept', 'cannot-dial', 'not-sftp'];
  expect(shown(...broken)).toEqual(['upload-broken-off', 'wrong-login', 'cannot-dial', 'not-sftp']);
  expect(shown('connected', 'logged-in')).toHaveLength(2);
  expect(latelyLines).toBe(4);
});
