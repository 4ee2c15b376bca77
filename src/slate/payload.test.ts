import fc from 'fast-check';
import { expect, test } from 'vitest';
import { crc16 } from './crc16.ts';
import { readSlate, writeSlate } from './payload.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

test('CRC-16/IBM-3740 of "123456789" is 0x29b1 (catalogue of parametrised CRC algorithms, check value)', () => {
  expect(crc16(bytes('123456789'))).toBe(0x29b1);
  expect(crc16(bytes(''))).toBe(0xffff);
});

test('a slate is short, and comes back as it was written', () => {
  const text = writeSlate({ kind: 'shot', job: 'KILN-12', shot: 'jug' });
  expect(text).toMatch(/^setside:slate:1:KILN-12:jug:[0-9a-f]{4}$/);
  expect(readSlate(text)).toEqual({ kind: 'shot', job: 'KILN-12', shot: 'jug' });
});

test('names of any letters come back', () => {
  fc.assert(
    fc.property(
      fc.string({ minLength: 1, maxLength: 20, unit: 'grapheme' }),
      fc.string({ minLength: 1, maxLength: 12, unit: 'grapheme' }),
      (job, shot) => {
        // What is too long for a code is refused; another test holds that.
        fc.pre(encodeURIComponent(job + shot).length < 290);
        expect(readSlate(writeSlate({ kind: 'shot', job, shot }))).toEqual({ kind: 'shot', job, shot });
      },
    ),
  );
});

test('what is too long for a code that a camera can read is refused', () => {
  expect(() => writeSlate({ kind: 'shot', job: 'ä'.repeat(60), shot: 'x' })).toThrow('too fine');
});

test('a clock comes back to the millisecond', () => {
  const clock = { kind: 'clock', atMs: 1_790_841_600_123, refreshMs: 200, unsureMs: 4 } as const;
  expect(readSlate(writeSlate(clock))).toEqual(clock);
});

test('a text with any one character changed, left out or doubled means nothing', () => {
  const text = writeSlate({ kind: 'shot', job: 'KILN-12', shot: 'jug' });
  for (let at = 0; at < text.length; at += 1) {
    const [before, after] = [text.slice(0, at), text.slice(at + 1)];
    for (const instead of ['', '0', ':', 'x', `${text[at]}${text[at]}`, '\u00e9']) {
      if (instead === text[at]) continue;
      expect(readSlate(before + instead + after), `${before}[${instead}]${after}`).toBeNull();
    }
  }
});

test.each([
  ['nothing', ''],
  ['an address', 'https://example.org/'],
  ['ours without its check', 'setside:slate:1:KILN-12:jug'],
  ['of another maker', withCheck('another:slate:1:KILN-12:jug')],
  ['of a later version', withCheck('setside:slate:2:KILN-12:jug')],
  ['of a kind we do not know', withCheck('setside:light:1:KILN-12:jug')],
  ['without a shot', withCheck('setside:slate:1:KILN-12')],
  ['with an empty shot', withCheck('setside:slate:1:KILN-12:')],
  ['with a field too many', withCheck('setside:slate:1:KILN-12:jug:x')],
  ['badly escaped', withCheck('setside:slate:1:KILN-12:%zz')],
  ['a clock of 1970', withCheck('setside:clock:1:1:5k:1')],
  ['a clock that stands still', withCheck('setside:clock:1:mupxyz12:0:1')],
  ['a check in capitals', withCheck('setside:slate:1:KILN-12:jug').toUpperCase()],
  ['longer than any', withCheck(`setside:slate:1:A:${'x'.repeat(4000)}`)],
])('%s means nothing', (_what, text) => {
  expect(readSlate(text)).toBeNull();
});

test('the checks of the cases above are right: without their fault they would be read', () => {
  expect(readSlate(withCheck('setside:slate:1:KILN-12:jug'))).not.toBeNull();
  expect(readSlate(withCheck('setside:clock:1:mupxyz12:5k:1'))).not.toBeNull();
});

test('a slate too fine for a camera is refused, not printed', () => {
  expect(() => writeSlate({ kind: 'shot', job: 'x'.repeat(200), shot: 'y'.repeat(200) })).toThrow('too fine');
});

function withCheck(text: string): string {
  return `${text}:${crc16(bytes(text)).toString(16).padStart(4, '0')}`;
}
