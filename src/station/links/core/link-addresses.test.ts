import { expect, test } from 'vitest';
import { linkAddresses } from './link-addresses.ts';

const four = (address: string, isPrivate = true, beside = false) =>
  ({ address, family: 'IPv4', interface: 'eth0', private: isPrivate, beside }) as const;
const urls = (...args: Parameters<typeof linkAddresses>): string[] =>
  linkAddresses(...args).map(({ url }) => url);

test('private addresses come first, over TLS, then the name, then the same in clear; never a public one', () => {
  const own = [four('127.0.0.1'), four('203.0.113.5', false), four('169.254.3.4'), four('192.168.7.2')];
  expect(urls(own, 'studio.local', 8461, 'abcd', true)).toEqual([
    'https://192.168.7.2:8461/in#abcd',
    'https://studio.local:8461/in#abcd',
    'http://192.168.7.2:8461/in#abcd',
    'http://studio.local:8461/in#abcd',
  ]);
});

test('without a certificate there is only clear, without a network only this computer', () => {
  expect(urls([four('127.0.0.1')], null, 1, 't', false)).toEqual(['http://127.0.0.1:1/in#t']);
});

test('a network without private IPv4 is reached by its unique local address, in brackets; a link-local one needs a zone', () => {
  const six = (address: string) =>
    ({ address, family: 'IPv6', interface: 'eth0', private: true, beside: false }) as const;
  const own = [four('127.0.0.1'), six('::1'), six('fe80::1'), six('fd00::2')];
  expect(urls(own, 'studio.local', 8461, 't', false)).toEqual([
    'http://[fd00::2]:8461/in#t',
    'http://studio.local:8461/in#t',
  ]);
  expect(urls([...own, four('10.0.0.2')], null, 1, 't', false)).toEqual(['http://10.0.0.2:1/in#t']);
});

test('an address of a direct cable is better than none', () => {
  expect(urls([four('169.254.3.4')], null, 1, 't', false)).toEqual(['http://169.254.3.4:1/in#t']);
});

test('a bridge to guests of this computer is where nobody stands: named only where there is nothing else', () => {
  const bridge = four('172.17.0.1', true, true);
  expect(urls([bridge, four('192.168.7.2')], null, 1, 't', false)).toEqual(['http://192.168.7.2:1/in#t']);
  expect(urls([bridge], null, 1, 't', false)).toEqual(['http://172.17.0.1:1/in#t']);
});
