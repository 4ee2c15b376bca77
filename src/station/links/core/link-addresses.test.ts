import { expect, test } from 'vitest';
import { linkAddresses } from './link-addresses.ts';

const four = (address: string, isPrivate = true) =>
  ({ address, family: 'IPv4', interface: 'eth0', private: isPrivate }) as const;
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

test('an address of a direct cable is better than none', () => {
  expect(urls([four('169.254.3.4')], null, 1, 't', false)).toEqual(['http://169.254.3.4:1/in#t']);
});
