import { expect, test } from 'vitest';
import {
  causeOf,
  differencesOf,
  type RehearsalStep,
  type StepFailure,
  type Tried,
} from './rehearsal-cause.ts';

const tried: Tried = { host: '192.168.7.20', port: 21, protocol: 'ftp', secure: 'no', near: false };
const failure = (change: Partial<StepFailure>): StepFailure => ({
  systemCode: null,
  reply: null,
  message: '',
  ...change,
});

// System codes: connect(2), getaddrinfo(3), tls of Node 20 and verify(1) of OpenSSL. Replies: RFC 959 section 4.2, RFC 4217.
test.each<[RehearsalStep, Partial<StepFailure>, string]>([
  ['reach', { systemCode: 'ECONNREFUSED' }, 'refused'],
  ['reach', { systemCode: 'ETIMEDOUT' }, 'silent'],
  ['reach', { systemCode: 'EHOSTUNREACH' }, 'no-way'],
  ['reach', { systemCode: 'ENETUNREACH' }, 'no-way'],
  ['log-in', { systemCode: 'OTHER_HOST_KEY' }, 'other-host-key'],
  ['reach', { systemCode: 'ENOTFOUND' }, 'no-name'],
  ['reach', { systemCode: 'ECONNRESET' }, 'reach-failed'],
  ['greet', {}, 'not-ftp'],
  ['greet', { reply: 421 }, 'sent-away'],
  ['secure', { systemCode: 'SELF_SIGNED_CERT_IN_CHAIN' }, 'untrusted'],
  ['secure', { systemCode: 'CERT_NOT_YET_VALID' }, 'not-now'],
  ['secure', { systemCode: 'ERR_TLS_CERT_ALTNAME_INVALID' }, 'other-name'],
  ['secure', { reply: 502 }, 'no-tls'],
  ['secure', { systemCode: 'ECONNRESET' }, 'tls-failed'],
  ['log-in', { reply: 530 }, 'log-in-refused'],
  ['log-in', { message: 'All configured authentication methods failed' }, 'log-in-refused'],
  ['log-in', { systemCode: 'ECONNRESET' }, 'log-in-failed'],
  ['data', { message: 'Timeout (data socket)' }, 'data-shut'],
  ['data', { systemCode: 'ECONNREFUSED' }, 'data-shut'],
  [
    'data',
    { message: 'Can’t open data connection in passive mode: connect ECONNREFUSED 127.0.0.1:1' },
    'data-shut',
  ],
  ['data', { reply: 451 }, 'data-failed'],
  ['send', { reply: 452 }, 'no-room'],
  ['send', { reply: 550 }, 'send-refused'],
  ['send', { systemCode: 'ECONNRESET' }, 'send-broke'],
])('step %s with %j is told as %s', (step, seen, code) => {
  expect(causeOf(step, failure(seen), tried).code).toBe(`rehearsal.${code}`);
});

test('from the station’s own computer neither network nor firewall was tried', () => {
  const codes = (local: string, remote: string, told: string | null) =>
    differencesOf({ local, remote, told, hostKey: null }).map(({ code }) => code);
  expect(codes('127.0.0.1', '127.0.0.1', '127.0.0.1')).toEqual(['rehearsal.own-computer']);
  expect(codes('192.168.7.20', '192.168.7.20', null)).toEqual(['rehearsal.own-computer']);
  expect(codes('192.168.7.44', '192.168.7.20', null)).toEqual(['rehearsal.from']);
});

test('an address told for the data that is not the one reached is a difference: cameras may believe it', () => {
  const [, told] = differencesOf({
    local: '10.0.0.9',
    remote: '192.168.7.20',
    told: '172.17.0.2',
    hostKey: null,
  });
  expect(told).toEqual({
    code: 'rehearsal.told-elsewhere',
    args: { told: '172.17.0.2', remote: '192.168.7.20' },
  });
});

test('in a network of this computer’s own no answer to the address means that nobody has it', () => {
  const code = (systemCode: string, near: boolean): string =>
    causeOf('reach', failure({ systemCode }), { ...tried, near }).code;
  expect(code('EHOSTUNREACH', true)).toBe('rehearsal.nobody-there');
  expect(code('EHOSTUNREACH', false)).toBe('rehearsal.no-way');
  expect(code('ENETUNREACH', true)).toBe('rehearsal.no-way');
});
