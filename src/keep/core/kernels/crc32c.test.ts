import { expect, test } from 'vitest';
import { crc32c } from './crc32c.ts';

// RFC 3720 (iSCSI) appendix B.4 prints the check values as bytes, least significant first; here as numbers.
const ascending = Uint8Array.from({ length: 32 }, (_, i) => i);

test.each([
  ['32 bytes of zeroes', new Uint8Array(32), 0x8a9136aa],
  ['32 bytes of ones', new Uint8Array(32).fill(0xff), 0x62a8ab43],
  ['32 bytes ascending', ascending, 0x46dd794e],
  ['32 bytes descending', ascending.slice().reverse(), 0x113fdb5c],
])('RFC 3720 B.4: %s', (_, bytes, expected) => {
  expect(crc32c(bytes)).toBe(expected);
});

test('the customary check text 123456789 gives E3069283 (catalogue of parametrised CRC algorithms, CRC-32/ISCSI)', () => {
  expect(crc32c(new TextEncoder().encode('123456789'))).toBe(0xe3069283);
});
