import { expect, test } from 'vitest';
import { easyScript, Talk } from '../../../testing/talk.ts';
import { parseUtime } from './site.ts';

/** What a line sets and says, in a folder with a file `/f`. */
function setTime(line: string): { codes: number[]; set: unknown } {
  let set: unknown = null;
  const talk = Talk.loggedIn({
    ...easyScript,
    'set-modified': ({ request }) => {
      set = request;
      return { ok: true, value: null };
    },
  });
  talk.say(line);
  return { codes: talk.codes, set };
}

const modifiedMs = Date.UTC(2026, 9, 1, 8, 4, 5);

test('MFMT, MDTM with a time and both forms of SITE UTIME set one time, in UTC', () => {
  const set = { path: '/f', modifiedMs };
  expect(setTime('MFMT 20261001080405 f')).toEqual({ codes: [213], set });
  expect(setTime('MDTM 20261001080405 f')).toEqual({ codes: [213], set });
  expect(setTime('SITE UTIME 20261001080405 f')).toEqual({ codes: [200], set });
  expect(setTime('SITE UTIME f 20250101000000 20261001080405 20240101000000 UTC')).toEqual({
    codes: [200],
    set,
  });
});

test('MDTM of a file that is there asks and sets nothing', () => {
  expect(setTime('MDTM f')).toEqual({ codes: [213], set: null });
  expect(setTime('MDTM 20261001080405 ').codes).toEqual([550]);
});

test('a time without seconds is taken, one that no calendar has is not, and names keep their blanks', () => {
  expect(parseUtime('202610010804 a b')).toEqual({ name: 'a b', modifiedMs: modifiedMs - 5000 });
  expect(parseUtime('a b 202610010804 20261001080405 202610010804 UTC')).toEqual({ name: 'a b', modifiedMs });
  expect(parseUtime('20261301080405 a')).toBeNull();
  expect(parseUtime('a')).toBeNull();
});

test('SITE CHMOD is superfluous here (202), SITE HELP lists, anything else is 501 (RFC 959 sections 4.2 and 5.4)', () => {
  const talk = Talk.loggedIn();
  talk.say('SITE CHMOD 644 f', 'SITE UMASK 022', 'SITE HELP', 'SITE', 'SITE EXEC x');
  expect(talk.codes).toEqual([202, 202, 214, 501, 501]);
});
