import { expect, test } from 'vitest';
import { addressBytes, covers, serverNamesMax, tidyNames } from './server-names.ts';

test.each([
  ['192.0.2.7', [192, 0, 2, 7]],
  // RFC 4291 section 2.2, the examples of form 1 and 2.
  ['2001:DB8:0:0:8:800:200C:417A', [0x20, 1, 0x0d, 0xb8, 0, 0, 0, 0, 0, 8, 8, 0, 0x20, 0x0c, 0x41, 0x7a]],
  ['FF01::101', [0xff, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 1]],
  ['::1', [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1]],
  ['::', [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]],
])('%s is read as its bytes', (address, bytes) => {
  expect([...(addressBytes(address) ?? [])]).toEqual(bytes);
});

test.each([
  ['256.1.1.1'],
  ['1.2.3'],
  ['1::2::3'],
  ['1:2:3:4:5:6:7'],
  ['1:2:3:4:5:6:7:8:9'],
  ['1:2:3:4:5:6:7::8'],
  ['g::'],
  [''],
])('%s is no address', (address) => {
  expect(addressBytes(address)).toBeNull();
});

test('names come out sorted, each once, without zones and without what is none', () => {
  const tidy = tidyNames({
    addresses: ['fe80::2%eth0', '10.0.0.2', '10.0.0.2', 'nonsense'],
    hosts: ['Set.Local', 'set.local', 'two words', '-x.local', '*.local'],
  });
  expect(tidy).toEqual({ addresses: ['10.0.0.2', 'fe80::2'], hosts: ['set.local'] });
});

test('as many names as allowed are taken, one more is left out', () => {
  const addresses = Array.from({ length: serverNamesMax + 1 }, (_, index) => `10.0.0.${index}`);
  expect(tidyNames({ addresses: addresses.slice(1), hosts: [] }).addresses).toHaveLength(serverNamesMax);
  expect(tidyNames({ addresses, hosts: [] }).addresses).toHaveLength(serverNamesMax);
});

test('an address is the same however it is spelled', () => {
  const held = { addresses: ['FE80:0:0:0:0:0:0:2'], hosts: [] };
  expect(covers(held, { addresses: ['fe80::2'], hosts: [] })).toBe(true);
  expect(covers(held, { addresses: ['fe80::3'], hosts: [] })).toBe(false);
  expect(covers(held, { addresses: [], hosts: ['set.local'] })).toBe(false);
});
