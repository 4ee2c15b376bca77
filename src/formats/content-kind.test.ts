import { expect, test } from 'vitest';
import { tinyBigTiff, tinyDng } from '../../test/vectors/formats/tiff-fixtures.ts';
import { sourceOfBytes } from './byte-source.ts';
import { kindOf } from './content-kind.ts';
import { inspect } from './inspect.ts';

const bytes = (text: string): Uint8Array => Uint8Array.from(text, (char) => char.charCodeAt(0));

test.each([
  ['jpeg', '\xff\xd8\xff\xe0', 'ITU-T T.81 B.1.1.3'],
  ['png', '\x89PNG\r\n\x1a\n\0\0\0\rIHDR', 'PNG (ISO/IEC 15948) 5.2'],
  ['webp', 'RIFF\x10\0\0\0WEBPVP8 ', 'RFC 9649 section 2.4'],
  ['unknown', 'RIFF\x10\0\0\0WAVEfmt ', 'RIFF holding sound'],
  ['raf', 'FUJIFILMCCD-RAW 0201', 'common practice, no source'],
  ['iso-bmff-raw', '\0\0\0\x18ftypcrx \0\0\0\x01', 'ISO/IEC 14496-12 4.3'],
  ['unknown', '\0\0\0\x18ftypisom\0\0\0\x01', 'ISO/IEC 14496-12 4.3: video'],
  ['tiff', 'II*\0\x08\0\0\0', 'TIFF 6.0 section 2'],
  ['tiff', 'MM\0*\0\0\0\x08', 'TIFF 6.0 section 2'],
  ['text', 'Shot 3: mug\r\n\tjug, 60 °C'.replace('°', '\xc2\xb0'), 'RFC 3629'],
  ['text', `${'a'.repeat(511)}\xc3`, 'RFC 3629: a character cut by the end of the head'],
  ['unknown', 'broken \xc3\x28 text', 'RFC 3629: no continuation byte'],
  ['unknown', 'with a \0 byte', 'a control character'],
  ['unknown', '\xff\xd8', 'SOI without a marker behind it'],
  ['empty', '', ''],
])('content is %s by its first bytes (%#: %s)', (kind, head) => {
  expect(kindOf(bytes(head))).toBe(kind);
});

test('a TIFF with DNGVersion in its first directory is a DNG, one with a mosaic is a raw, else it is a TIFF', () => {
  const dng = tinyDng();
  expect(inspect(sourceOfBytes(dng.build())).kind).toBe('dng');
  // Another tag in the place of DNGVersion (DNG 1.4 chapter 4): the mosaic remains.
  const raw = dng.build();
  new DataView(raw.buffer).setUint16(dng.at('IFD0 DNGVersion tag'), 0xfdea, true);
  expect(inspect(sourceOfBytes(raw)).kind).toBe('tiff-raw');
  expect(inspect(sourceOfBytes(tinyBigTiff().build())).kind).toBe('tiff');
});

test('a kind is not decided before enough bytes are there, and the file says when to ask again', () => {
  const dng = tinyDng().build();
  for (let there = 0; there < 16; there++) {
    const early = inspect(sourceOfBytes(dng.subarray(0, there), false));
    expect(early.kind).toBe(there === 0 ? 'empty' : 'unknown');
    expect(early.wantedNext).toBe(16);
  }
});
