import { expect, test } from 'vitest';
import { parseAllowRule } from './allow-rule.ts';

test('an address is a network of one', () => {
  expect(parseAllowRule('192.168.7.20')).toEqual({
    kind: 'network',
    address: '192.168.7.20',
    prefixBits: 32,
    family: 'ipv4',
  });
  expect(parseAllowRule('fd00::12')).toMatchObject({ prefixBits: 128, family: 'ipv6' });
});

// Notation of RFC 4632 section 3.1; the address of RFC 5737.
test('a network is written with its prefix', () => {
  expect(parseAllowRule('192.0.2.0/24')).toMatchObject({ address: '192.0.2.0', prefixBits: 24 });
  expect(parseAllowRule('2001:db8::/32')).toMatchObject({ prefixBits: 32, family: 'ipv6' });
  expect(parseAllowRule(' 10.0.0.0/8 ')).toMatchObject({ prefixBits: 8 });
});

test('a hardware address is taken with colons or hyphens, in any case', () => {
  expect(parseAllowRule('3C-22-FB-01-02-03')).toEqual({ kind: 'hardware', hardware: '3c:22:fb:01:02:03' });
  expect(parseAllowRule('3c:22:fb:01:02:03')).toEqual({ kind: 'hardware', hardware: '3c:22:fb:01:02:03' });
});

test.each([
  '',
  'camera',
  '192.168.7',
  '192.168.7.256',
  '192.168.7.0/33',
  '192.168.7.0/',
  '1.2.3.4/8/8',
  '3c:22:fb',
  '::/129',
  '1::2::3',
  '1:2:3:4:5:6:7:8:9',
  '12345::',
  '10.0.0.1/-1',
  'fe80::1%eth0',
])('%j is no rule', (text) => {
  expect(parseAllowRule(text)).toBe(null);
});
