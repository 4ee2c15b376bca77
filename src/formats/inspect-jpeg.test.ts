import { describe, expect, test } from 'vitest';
import { baselineJpeg, cameraJpeg, progressiveJpeg } from '../../test/vectors/formats/jpeg-fixtures.ts';
import { sourceOfBytes } from './byte-source.ts';
import { inspect } from './inspect.ts';
import { defaultLimits } from './limits.ts';

test('a baseline JPEG is whole at its EOI and is its own preview (ITU-T T.81 figure B.2)', () => {
  const bytes = baselineJpeg(2000, 1500).build();
  expect(inspect(sourceOfBytes(bytes))).toMatchObject({
    kind: 'jpeg',
    wholeness: { kind: 'whole' },
    expectedBytes: bytes.length,
    pictureWidthPx: 2000,
    pictureHeightPx: 1500,
    jpeg: { process: 'baseline', scansStarted: 1, decodable: true, endBytes: bytes.length },
    previews: [{ offset: 0, length: bytes.length, widthPx: 2000, heightPx: 1500, complete: true }],
    issues: [],
  });
});

test('stuffed zeros, restart markers and fill bytes do not end a scan (T.81 B.1.1.2, B.1.1.5)', () => {
  const jpeg = baselineJpeg(8, 8);
  const found = inspect(sourceOfBytes(jpeg.build()));
  const scanBytes = jpeg.at('scan 1 fill byte') - jpeg.at('scan 1 entropy');
  expect(found.jpeg?.scanBytes).toBeGreaterThanOrEqual(scanBytes);
  expect(found.jpeg?.scansStarted).toBe(1);
});

test('a progressive JPEG counts its scans', () => {
  const found = inspect(sourceOfBytes(progressiveJpeg(640, 480).build()));
  expect(found.jpeg).toMatchObject({ process: 'progressive', scansStarted: 2, decodable: true });
});

test('bytes behind EOI are left alone', () => {
  const bytes = baselineJpeg(8, 8).build();
  const found = inspect(sourceOfBytes(Uint8Array.from([...bytes, 0, 0, 0xff, 0xd8, 1, 2, 3])));
  expect(found.wholeness).toEqual({ kind: 'whole' });
  expect(found.expectedBytes).toBe(bytes.length);
});

test('tags and thumbnail come from the Exif segment, placed in the file (Exif 2.32 sections 4.5.4, 4.7.2)', () => {
  const jpeg = cameraJpeg(1500, 1000);
  const found = inspect(sourceOfBytes(jpeg.build()));
  expect(found.tags.orientation).toBe(6);
  expect(found.previews[0]).toMatchObject({
    offset: jpeg.at('thumbnail'),
    length: jpeg.at('APP2') - jpeg.at('thumbnail'),
    widthPx: 160,
    heightPx: 120,
    complete: true,
  });
});

test('the thumbnail is there before the picture, and part of the picture before its end', () => {
  const jpeg = cameraJpeg(1500, 1000);
  const bytes = jpeg.build();
  const early = inspect(sourceOfBytes(bytes.subarray(0, jpeg.at('SOF')), false));
  expect(early.previews.map((preview) => preview.complete)).toEqual([true, false]);
  expect(early.jpeg?.decodable).toBe(false);
  const later = inspect(sourceOfBytes(bytes.subarray(0, jpeg.at('EOI')), false));
  expect(later.jpeg).toMatchObject({ decodable: true, endBytes: null });
  expect(later.wholeness.kind).toBe('cut');
});

test('Exif that points out of its segment says nothing of the picture', () => {
  const jpeg = cameraJpeg(1500, 1000);
  const found = inspect(sourceOfBytes(jpeg.spoiled('IFD1 offset', 60_000)));
  expect(found.wholeness).toEqual({ kind: 'whole' });
  expect(found.previews.map((preview) => preview.widthPx)).toEqual([1500, 1920]);
  expect(found.issues.map((issue) => issue.code)).toEqual(['claim-past-segment']);
});

test('a second picture is announced by the index, and a file cut behind its first EOI is cut (CIPA DC-007-2009)', () => {
  const jpeg = cameraJpeg(1500, 1000);
  const bytes = jpeg.build();
  const second = { offset: jpeg.at('second picture'), length: bytes.length - jpeg.at('second picture') };
  const early = inspect(sourceOfBytes(bytes.subarray(0, jpeg.at('SOF')), false));
  expect(early.previews[1]).toMatchObject({ ...second, widthPx: null, complete: false });
  expect(early.expectedBytes).toBe(bytes.length);
  const first = inspect(sourceOfBytes(bytes.subarray(0, second.offset), false));
  expect(first.wholeness).toEqual({ kind: 'cut', expectedBytes: bytes.length });
  expect(first.wantedNext).toBe(bytes.length);
  const whole = inspect(sourceOfBytes(bytes));
  expect(whole.previews[2]).toMatchObject({ ...second, widthPx: 1920, heightPx: 1080, complete: true });
});

test('the number of lines may follow the first scan (T.81 B.2.5, DNL)', () => {
  const jpeg = baselineJpeg(100, 0);
  const bytes = jpeg.build();
  const dnl = [0xff, 0xdc, 0x00, 0x04, 0x00, 0x50];
  const end = jpeg.at('scan 1 fill byte');
  const found = inspect(
    sourceOfBytes(Uint8Array.from([...bytes.subarray(0, end), ...dnl, ...bytes.subarray(end)])),
  );
  expect(found.pictureHeightPx).toBe(0x50);
  expect(found.wholeness).toEqual({ kind: 'whole' });
});

test('a frame without a size or without a scan is not called whole', () => {
  for (const [width, height] of [
    [0, 10],
    [10, 0],
  ] as const) {
    const flat = inspect(sourceOfBytes(baselineJpeg(width, height).build()));
    expect(flat.wholeness).toEqual({ kind: 'unknown' });
    expect(flat.issues.map((issue) => issue.code)).toContain('jpeg-no-picture');
  }
  const bare = inspect(sourceOfBytes(Uint8Array.from([0xff, 0xd8, 0xff, 0xd9])));
  expect(bare.wholeness).toEqual({ kind: 'unknown' });
});

test('a lossless JPEG is whole, but no view', () => {
  const jpeg = baselineJpeg(100, 100);
  const bytes = jpeg.build();
  bytes[jpeg.at('SOF') + 1] = 0xc3;
  const found = inspect(sourceOfBytes(bytes));
  expect(found.wholeness).toEqual({ kind: 'whole' });
  expect(found.previews).toEqual([]);
});

test('damage inside a scan does not lead past the EOI', () => {
  const jpeg = baselineJpeg(8, 8);
  const bytes = jpeg.build();
  // A code that T.81 table B.1 reserves, and that would claim a segment of thousands of bytes.
  bytes[jpeg.at('scan 1 stuffed zero') + 1] = 0x40;
  expect(inspect(sourceOfBytes(bytes)).wholeness).toEqual({ kind: 'whole' });
});

describe('bounds hold just below and just above', () => {
  // Seen up to EOI: SOF and SOS.
  test('marker segments', () => {
    const source = sourceOfBytes(baselineJpeg(8, 8).build());
    expect(inspect(source, { ...defaultLimits, markersMax: 2 }).wholeness.kind).toBe('whole');
    const above = inspect(source, { ...defaultLimits, markersMax: 1 });
    expect(above.wholeness.kind).toBe('unknown');
    expect(above.issues.map((issue) => issue.code)).toEqual(['jpeg-too-long']);
  });

  test('bytes walked', () => {
    const jpeg = baselineJpeg(8, 8);
    const source = sourceOfBytes(jpeg.build());
    const last = jpeg.at('EOI') - 1; // the walk looks at the fill byte and EOI from here
    expect(inspect(source, { ...defaultLimits, walkBytesMax: last + 1 }).wholeness.kind).toBe('whole');
    expect(inspect(source, { ...defaultLimits, walkBytesMax: last - 1 }).wholeness.kind).toBe('unknown');
  });
});
