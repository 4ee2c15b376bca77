import { expect, test } from 'vitest';
import { asciiTag, directoryBytes, type Tag, writeDirectory } from './tiff-writer.ts';

test('a directory is laid out as TIFF 6.0 section 2 says: count, sorted fields, next link, long values after it', () => {
  const tags: Tag[] = [
    { id: 0x0112, type: 'short', values: [6] },
    asciiTag(0x010f, 'Setside'),
    { id: 0x829a, type: 'rational', values: [1, 125] },
  ];
  const bytes = new Uint8Array(directoryBytes(tags) + 8);
  writeDirectory(new DataView(bytes.buffer), 8, tags);
  expect([...bytes.subarray(8)]).toEqual(
    [
      [3, 0], // three fields
      [0x0f, 0x01, 2, 0, 8, 0, 0, 0, 50, 0, 0, 0], // Make, ASCII, 8 with NUL, at 8 + 2 + 36 + 4
      [0x12, 0x01, 3, 0, 1, 0, 0, 0, 6, 0, 0, 0], // Orientation, SHORT, 1, value left-justified
      [0x9a, 0x82, 5, 0, 1, 0, 0, 0, 58, 0, 0, 0], // ExposureTime, RATIONAL, 1, after Make
      [0, 0, 0, 0], // no next directory
      [0x53, 0x65, 0x74, 0x73, 0x69, 0x64, 0x65, 0], // "Setside"
      [1, 0, 0, 0, 125, 0, 0, 0], // 1/125
    ].flat(),
  );
});

test('values after a directory begin on even offsets', () => {
  const tags = [asciiTag(0x010f, 'Seven!'), asciiTag(0x0110, 'Eights!')];
  expect(directoryBytes(tags)).toBe(2 + 24 + 4 + 8 + 8);
});
