import fc from 'fast-check';
import { expect, test } from 'vitest';
import { defaultFtpLimits } from './limits.ts';
import { type ControlInput, LineReader } from './line-reader.ts';

const latin1 = (text: string): Uint8Array => Uint8Array.from(text, (character) => character.charCodeAt(0));
const asText = (bytes: Uint8Array): string => String.fromCharCode(...bytes);

function readAll(chunks: readonly Uint8Array[], reader = new LineReader(defaultFtpLimits)): ControlInput[] {
  const inputs: ControlInput[] = [];
  for (const chunk of chunks) {
    reader.push(chunk);
    for (let input = reader.next(); input !== null; input = reader.next()) inputs.push(input);
  }
  return inputs;
}

const lines = (inputs: readonly ControlInput[]): string[] =>
  inputs.map((input) => (input.kind === 'line' ? asText(input.bytes) : input.kind));

/** Everything the reader knows in one stream: plain, Telnet, CR NUL, a doubled IAC, an abort with its synch. */
const stream = latin1(
  'NOOP\r\nSTOR a\u00ff\u00ffb\r\n\u00ff\u00fb\u0001TYPE I\r\nMKD c\r\u0000d\r\n\u00ff\u00f4\u00ff\u00f2ABOR\r\n\u00ff\u00fa\u0018x\r\n\u00ff\u00f0PWD\r\n',
);
const streamLines = ['NOOP', 'STOR a\u00ffb', 'telnet', 'TYPE I', 'MKD c\rd', 'ABOR', 'PWD'];

test('1.1 a stream gives the same lines whole, byte by byte, and cut in two at every place', () => {
  expect(lines(readAll([stream]))).toEqual(streamLines);
  expect(lines(readAll([...stream].map((byte) => Uint8Array.of(byte))))).toEqual(streamLines);
  for (let cut = 0; cut <= stream.length; cut += 1) {
    expect(lines(readAll([stream.subarray(0, cut), stream.subarray(cut)])), `cut at ${cut}`).toEqual(
      streamLines,
    );
  }
});

test('1.1 inputs are given one at a time, and bytes pushed in between come after those that wait', () => {
  const reader = new LineReader(defaultFtpLimits);
  reader.push(latin1('ONE\r\nTWO\r\nTH'));
  expect(lines([reader.next()].filter((input) => input !== null))).toEqual(['ONE']);
  expect(lines(readAll([latin1('REE\r\n')], reader))).toEqual(['TWO', 'THREE']);
});

test('1.2 a client whose first line ends with LF goes on that way', () => {
  expect(lines(readAll([latin1('USER a\nPASS b\nNOOP\r\n')]))).toEqual(['USER a', 'PASS b', 'NOOP']);
});

test('1.2 after a first CR LF a bare LF is a character and begins no second command', () => {
  expect(lines(readAll([latin1('NOOP\r\nSTOR a\nDELE b\r\n')]))).toEqual(['NOOP', 'STOR a\nDELE b']);
});

test('1.3 WILL and DO are refused as RFC 854 writes it, WONT and DONT need no answer', () => {
  const inputs = readAll([Uint8Array.of(255, 251, 1, 255, 253, 3, 255, 252, 1, 255, 254, 3)]);
  expect(inputs).toEqual([
    { kind: 'telnet', bytes: Uint8Array.of(255, 254, 1) },
    { kind: 'telnet', bytes: Uint8Array.of(255, 252, 3) },
  ]);
});

test('1.3 IAC before a letter is dropped alone: the data mark between them went as urgent data', () => {
  expect(lines(readAll([latin1('\u00ff\u00f4\u00ffABOR\r\n')]))).toEqual(['ABOR']);
});

test('1.4 ABOR counts at its CR, and its LF counts once where it still comes', () => {
  expect(lines(readAll([latin1('NOOP\r\nabor\r')]))).toEqual(['NOOP', 'abor']);
  expect(lines(readAll([latin1('NOOP\r\nABOR\r'), latin1('\nPWD\r\n')]))).toEqual(['NOOP', 'ABOR', 'PWD']);
  expect(lines(readAll([latin1('NOOP\r\nABOR\rPWD\r\n')]))).toEqual(['NOOP', 'ABOR', 'PWD']);
  expect(lines(readAll([latin1('ABOR\r'), latin1('PWD\r\n')]))).toEqual(['ABOR', 'PWD']);
});

test('1.5 a line of 4096 bytes is heard, one of 4097 is too long, and the next line is heard again', () => {
  const at = 'x'.repeat(defaultFtpLimits.lineBytesMax);
  expect(lines(readAll([latin1(`${at}\r\nNOOP\r\n`)]))).toEqual([at, 'NOOP']);
  expect(lines(readAll([latin1(`${at}y\r\nNOOP\r\n`)]))).toEqual(['too-long', 'NOOP']);
});

test('1.5 a line that is too long may go on for 256 KiB and no longer', () => {
  const { lineBytesMax, lineSkipBytesMax } = defaultFtpLimits;
  const at = 'x'.repeat(lineBytesMax + lineSkipBytesMax);
  expect(lines(readAll([latin1(`${at}\r\nNOOP\r\n`)]))).toEqual(['too-long', 'NOOP']);
  expect(lines(readAll([latin1(`${at}y\r\nNOOP\r\n`)]))).toEqual(['too-long', 'endless']);
});

test('1.1 any bytes in any cuts give what they give whole, and never more bytes than came', () => {
  const someBytes = fc.uint8Array({ maxLength: 300 });
  const telling = fc.array(fc.constantFrom(255, 251, 253, 250, 240, 13, 10, 0, 65, 66, 79, 82), {
    maxLength: 60,
  });
  const bytes = fc.oneof(
    someBytes,
    telling.map((values) => Uint8Array.from(values)),
  );
  fc.assert(
    fc.property(bytes, fc.nat(300), (all, place) => {
      const cut = Math.min(place, all.length);
      const whole = readAll([all]);
      expect(readAll([all.subarray(0, cut), all.subarray(cut)])).toEqual(whole);
      const held = whole.reduce((sum, input) => sum + (input.kind === 'line' ? input.bytes.length : 0), 0);
      expect(held).toBeLessThanOrEqual(all.length);
    }),
    { numRuns: 2000 },
  );
});
