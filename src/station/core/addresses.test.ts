import { describe, expect, test } from 'vitest';
import {
  addressForCameras,
  isLoopback,
  isPrivateAddress,
  type OwnAddress,
  reachTroubles,
  servedAddresses,
} from './addresses.ts';

/** First and last addresses of the blocks of RFC 1918, RFC 6598, RFC 3927, and their neighbours outside. */
const inside = [
  '10.0.0.0',
  '10.255.255.255',
  '172.16.0.1',
  '172.31.255.255',
  '192.168.0.1',
  '100.64.0.1',
  '100.127.9.9',
  '169.254.1.1',
  '127.0.0.1',
  '::1',
  'fd00::1',
  'fe80::1%eth0',
  '::ffff:192.168.1.2',
];
const outside = [
  '9.255.255.255',
  '11.0.0.1',
  '172.15.0.1',
  '172.32.0.1',
  '192.167.0.1',
  '192.169.0.1',
  '100.63.0.1',
  '100.128.0.1',
  '203.0.113.5',
  '2001:db8::1',
  '::ffff:8.8.8.8',
  'garbage',
];

test('the private blocks of the RFCs are private to their last address, their neighbours are not', () => {
  expect(inside.filter((address) => !isPrivateAddress(address))).toEqual([]);
  expect(outside.filter(isPrivateAddress)).toEqual([]);
});

test('the address for cameras is one on a real network before loopback', () => {
  const entry = (address: string) => ({
    address,
    family: 'IPv4' as const,
    interface: 'x',
    private: true,
    beside: false,
  });
  expect(addressForCameras([entry('127.0.0.1'), entry('169.254.3.4'), entry('192.168.8.20')])).toBe(
    '192.168.8.20',
  );
  expect(addressForCameras([entry('127.0.0.1')])).toBe('127.0.0.1');
  expect(addressForCameras([])).toBe('127.0.0.1');
});

test('bound to one address, that one is told and no other, also where the system does not list it', () => {
  const entry = (address: string, family: 'IPv4' | 'IPv6' = 'IPv4') => ({
    address,
    family,
    interface: 'x',
    private: true,
    beside: false,
  });
  const own = [entry('127.0.0.1'), entry('::1', 'IPv6'), entry('192.168.8.20')];
  const told = (bind: string | null): string => addressForCameras(servedAddresses(own, bind));
  expect(servedAddresses(own, null)).toEqual([entry('192.168.8.20')]);
  expect(servedAddresses([entry('127.0.0.1')], null)).toEqual([entry('127.0.0.1')]);
  expect([null, '::1', '127.0.0.2', '192.168.8.20', '203.0.113.5'].map(told)).toEqual([
    '192.168.8.20',
    '::1',
    '127.0.0.2',
    '192.168.8.20',
    '203.0.113.5',
  ]);
  expect(servedAddresses(own, '0.0.0.0')).toEqual([entry('192.168.8.20')]);
});

test('loopback is 127/8 and ::1, also as an IPv4-mapped address', () => {
  expect(['127.0.0.1', '127.0.0.2', '::1', '::ffff:127.0.0.1'].every(isLoopback)).toBe(true);
  const codes = (bind: string) => reachTroubles([], bind).map(({ code }) => code);
  expect(codes('127.0.0.2')).toEqual(['line.loopback-only']);
  expect(codes('192.168.8.20')).toEqual([]);
  expect(['192.168.127.1', '1.127.0.0', '::', 'fe80::1'].some(isLoopback)).toBe(false);
});

describe('a computer without a private IPv4 address', () => {
  const of = (address: string): OwnAddress => ({
    address,
    family: address.includes(':') ? 'IPv6' : 'IPv4',
    interface: 'x',
    private: isPrivateAddress(address),
    beside: false,
  });
  /** 192.0.2.0/24 and 2001:db8::/32 are for documentation (RFC 5737, RFC 3849), fd00::/8 is private (RFC 4193). */
  const publicOnly = ['127.0.0.1', '::1', '192.0.2.2', '2001:db8::2', 'fe80::1'].map(of);

  test('offers a private IPv6 address, since the doors serve it', () => {
    const own = [...publicOnly, of('fd00::2')];
    expect(addressForCameras(servedAddresses(own, null))).toBe('fd00::2');
    expect(servedAddresses(own, null)).toEqual([of('fd00::2')]);
    expect(reachTroubles(own, null)).toEqual([]);
  });

  test('says that cameras are shut out where there is none, and never tells a public address or one with a zone', () => {
    expect(servedAddresses(publicOnly, null)).toEqual(['127.0.0.1', '::1'].map(of));
    expect(reachTroubles(publicOnly, null)).toEqual([
      { code: 'line.no-private-address', args: { address: '192.0.2.2' } },
    ]);
    expect(reachTroubles([of('::1'), of('2001:db8::2')], null)[0]?.args).toEqual({ address: '2001:db8::2' });
  });

  test('is told by its public address where somebody asked for it', () => {
    for (const bind of ['192.0.2.2', '0.0.0.0', '::']) {
      expect(addressForCameras(servedAddresses(publicOnly, bind)), bind).toBe('192.0.2.2');
      expect(reachTroubles(publicOnly, bind), bind).toEqual([]);
    }
  });

  test('with nothing but loopback is told so', () => {
    expect(reachTroubles([of('127.0.0.1'), of('fe80::1')], null)).toEqual([
      { code: 'line.loopback-only', args: {} },
    ]);
  });
});
