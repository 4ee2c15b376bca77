import { expect, test } from 'vitest';
import { readVector } from '../../test/vector.ts';
import { addressesToEnter } from './address-for.ts';
import { addressUse, camerasMayEnter, isInNetwork, maskOf, networkOf, plainAddress } from './addresses.ts';
import { sampleFacts, wired } from './testing/sample-facts.ts';

/** The RFCs named in it; first and last addresses computed by Python's ipaddress. */
const facts = readVector<{
  address_blocks: { block: string; use: string; first: string; last: string }[];
  classify: { address: string; use: string }[];
}>('network-facts.json');

/** What of a published use is ours: documentation, multicast and broadcast are nobody's private network. */
function meant(use: string): string {
  if (/^private|unique local/.test(use)) return 'private';
  if (/link-local/.test(use)) return 'link-local';
  if (/^shared/.test(use)) return 'shared';
  return /loopback/.test(use) ? 'loopback' : 'public';
}

test('each block of the RFCs is told by its first and its last address', () => {
  for (const { use, first, last } of facts.address_blocks) {
    expect([use, addressUse(first), addressUse(last)]).toEqual([use, meant(use), meant(use)]);
  }
});

test('addresses just inside and just outside are told apart', () => {
  for (const { address, use } of facts.classify)
    expect([address, addressUse(address)]).toEqual([address, meant(use)]);
});

test('networks and masks are those that Python says (ipaddress.ip_interface, Python 3.11)', () => {
  expect(networkOf('192.168.7.31', 24)).toBe('192.168.7.0/24');
  expect(networkOf('10.77.130.5', 17)).toBe('10.77.128.0/17');
  expect(networkOf('10.1.2.3', 32)).toBe('10.1.2.3/32');
  expect([24, 17, 30, 8].map(maskOf)).toEqual([
    '255.255.255.0',
    '255.255.128.0',
    '255.255.255.252',
    '255.0.0.0',
  ]);
  expect(isInNetwork('10.77.127.255', '10.77.0.0/17')).toBe(true);
  expect(isInNetwork('10.77.128.0', '10.77.0.0/17')).toBe(false);
  expect(isInNetwork('fe80::1', '10.0.0.0/8')).toBe(false);
  expect(isInNetwork('0.0.0.1', '0.0.0.0/0')).toBe(true);
});

test('what only sockets write is taken off', () => {
  expect(plainAddress('::ffff:192.168.7.2')).toBe('192.168.7.2');
  expect(plainAddress('FE80::1%eth0')).toBe('fe80::1');
});

test('a camera is given no address of loopback, of IPv6, or that is not served', () => {
  const { interfaces } = sampleFacts({
    interfaces: [wired('eth0', '192.168.7.2'), { ...wired('eth1', '203.0.113.5', { served: false }) }],
  });
  expect(camerasMayEnter(interfaces).map(({ address }) => address)).toEqual(['192.168.7.2']);
});

test('addresses of bridges to guests and of tunnels are given to no camera while there is another', () => {
  const eth0 = wired('eth0', '192.168.7.2');
  const guests = { ...wired('br-guests', '172.17.0.1'), kind: 'virtual' } as const;
  const tunnel = { ...wired('tun0', '10.8.0.2'), kind: 'tunnel' } as const;
  const given = (interfaces: ReturnType<typeof wired>[]): string[] =>
    addressesToEnter({ interfaces }).map(({ address }) => address);
  expect(given([guests, tunnel, eth0])).toEqual(['192.168.7.2']);
  expect(given([guests])).toEqual(['172.17.0.1']);
  // A bridge that leads to the router is how this computer is in its network.
  const bridge = { ...wired('br0', '192.168.9.2'), kind: 'virtual', gateway: '192.168.9.1' } as const;
  expect(given([guests, bridge])).toEqual(['192.168.9.2']);
});
