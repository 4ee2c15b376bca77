import { expect, test } from 'vitest';
import { comesFromHere, isLoopbackAddress, isLoopbackHost, isOwnHost, type Provenance } from './caller.ts';

test('loopback is 127.0.0.0/8 (RFC 1122 section 3.2.1.3), ::1 (RFC 4291 section 2.5.3), and 127/8 mapped into IPv6', () => {
  for (const address of ['127.0.0.1', '127.255.255.254', '::1', '::ffff:127.0.0.1', '::FFFF:127.0.0.1']) {
    expect(isLoopbackAddress(address), address).toBe(true);
  }
  const others = [
    '128.0.0.1',
    '10.0.0.1',
    '192.168.0.7',
    '::',
    '::2',
    'fe80::1',
    '::ffff:10.0.0.1',
    '1127.0.0.1',
    '127.0.0.1.example',
  ];
  for (const address of others) expect(isLoopbackAddress(address), address).toBe(false);
});

test('only names that no name server can point elsewhere are this computer', () => {
  for (const host of ['localhost', 'LOCALHOST:8460', '127.0.0.1', '127.0.0.1:1', '[::1]', '[::1]:65535']) {
    expect(isLoopbackHost(host), host).toBe(true);
  }
  const others = [
    undefined,
    '',
    'evil.example',
    'evil.example:8460',
    'localhost.evil.example',
    '127.0.0.1.evil.example',
    'localhost:',
    'localhost:123456',
    'user@localhost',
    '::1',
    '192.168.0.7:8460',
  ];
  for (const host of others) expect(isLoopbackHost(host), host).toBe(false);
});

const base: Provenance = {
  method: 'PATCH',
  scheme: 'http',
  host: 'localhost:8460',
  origin: undefined,
  fetchSite: undefined,
  fetchMode: undefined,
};

test('a program without browser headers passes, and so does our own page', () => {
  expect(comesFromHere(base)).toBe(true);
  expect(comesFromHere({ ...base, origin: 'http://localhost:8460', fetchSite: 'same-origin' })).toBe(true);
  expect(comesFromHere({ ...base, method: 'GET', fetchSite: 'none', fetchMode: 'navigate' })).toBe(true);
});

test('an origin of another name, another port, or none at all ("null") is turned away', () => {
  for (const origin of [
    'http://evil.example',
    'http://localhost:3000',
    'http://localhost',
    'null',
    'http://localhost:8460.evil.example',
    'http://localhost:8460/x',
    '',
  ]) {
    expect(comesFromHere({ ...base, origin }), origin).toBe(false);
  }
});

test('under TLS only the page that came under TLS is our own: one in clear at the same address is foreign', () => {
  const secure = { ...base, scheme: 'https', host: '192.168.7.2:8461' } as const;
  expect(comesFromHere({ ...secure, origin: 'https://192.168.7.2:8461' })).toBe(true);
  expect(comesFromHere({ ...secure, origin: 'http://192.168.7.2:8461' })).toBe(false);
  expect(comesFromHere({ ...secure, scheme: 'http', origin: 'https://192.168.7.2:8461' })).toBe(false);
});

test('own names and addresses pass with any port, IPv6 in brackets (RFC 3986 section 3.2.2), and nothing like them', () => {
  const own = ['192.168.7.2', 'fd00::7', 'studio.local'];
  for (const host of ['192.168.7.2', '192.168.7.2:8461', '[fd00::7]:8461', 'Studio.local:8461']) {
    expect(isOwnHost(host, own), host).toBe(true);
  }
  for (const host of [
    undefined,
    '',
    '192.168.7.3',
    'fd00::7',
    'studio.local.evil.example',
    'x@192.168.7.2',
    '192.168.7.2:',
  ]) {
    expect(isOwnHost(host, own), host).toBe(false);
  }
});

test('a foreign page may lead a person here by a link, and load nothing in passing (W3C Fetch Metadata)', () => {
  const foreign = { ...base, method: 'GET', fetchSite: 'cross-site' };
  expect(comesFromHere({ ...foreign, fetchMode: 'navigate' })).toBe(true);
  expect(comesFromHere({ ...foreign, fetchMode: 'no-cors' })).toBe(false);
  expect(comesFromHere({ ...foreign, fetchSite: 'same-site', fetchMode: 'no-cors' })).toBe(false);
  expect(comesFromHere({ ...foreign, method: 'POST', fetchMode: 'navigate' })).toBe(false);
});
