import { expect, test } from 'vitest';
import { easyScript, Talk } from '../../../testing/talk.ts';
import type { TlsPolicy } from '../tls-policy.ts';

const explicit: TlsPolicy = { start: 'explicit', clearText: 'allowed' };
const here = '192.0.2.1';

function talkTo(policy: TlsPolicy | null, script = easyScript): Talk {
  return new Talk(script, {}, here, policy);
}

test('10.1 lines that waited behind AUTH are never heard, however early they came', () => {
  const talk = talkTo(explicit, { ...easyScript, 'log-in': undefined });
  // The log-in takes its time; what is said meanwhile waits.
  talk.say('USER a', 'PASS wrong', 'AUTH TLS', 'SYST', 'NOOP');
  talk.answer({ camera: null, failures: 1 });
  expect(talk.question).toBe('secure');
  talk.answer('secured');
  talk.say('PWD');
  expect(talk.codes).toEqual([220, 331, 530, 530]);
});

test('10.1 a name given in clear does not count under TLS', () => {
  const talk = talkTo(explicit, { ...easyScript, secure: () => 'secured' });
  talk.say('USER a', 'AUTH TLS', 'PASS b');
  expect(talk.codes).toEqual([220, 331, 503]);
});

test.each([
  ['AUTH', 501],
  ['AUTH KERBEROS_V4', 504],
  ['AUTH TLS-P', 504],
])('10.1 %s is %i', (line, code) => {
  const talk = talkTo(explicit);
  talk.say(line);
  expect(talk.codes).toEqual([220, code]);
});

test.each(['AUTH TLS', 'AUTH TLS-C', 'AUTH SSL', 'auth tls'])('10.1 %s begins TLS', (line) => {
  const talk = talkTo(explicit);
  talk.say(line);
  expect(talk.question).toBe('secure');
});

test('10.1 AUTH twice, or after the log-in, is 503', () => {
  const twice = talkTo(explicit, { ...easyScript, secure: () => 'secured' });
  twice.say('AUTH TLS', 'AUTH TLS');
  const late = talkTo(explicit);
  late.say('USER a', 'PASS b', 'AUTH TLS');
  expect([twice.codes.at(-1), late.codes.at(-1)]).toEqual([503, 503]);
});

test('10.2 CCC is refused: 534 under TLS, 533 in clear (RFC 2228 section 5.4)', () => {
  const talk = talkTo(explicit, { ...easyScript, secure: () => 'secured' });
  talk.say('CCC', 'AUTH TLS', 'CCC');
  expect(talk.codes).toEqual([220, 533, 534]);
});

test('10.8 where too many begin at once it is 431, and the session goes on in clear', () => {
  const talk = talkTo(explicit, { ...easyScript, secure: () => 'busy' });
  talk.say('AUTH TLS', 'PBSZ 0', 'NOOP');
  expect(talk.codes).toEqual([220, 431, 503, 200]);
});

test('a door without TLS knows none of its commands, and does not offer them', () => {
  const talk = talkTo(null);
  talk.say('AUTH TLS', 'PBSZ 0', 'PROT P', 'CCC', 'FEAT');
  expect(talk.codes).toEqual([220, 502, 502, 502, 502, 211]);
  expect(talk.said).not.toMatch(/AUTH TLS|PBSZ\r/);
});
