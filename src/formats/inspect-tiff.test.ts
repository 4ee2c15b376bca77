import { describe, expect, test } from 'vitest';
import {
  chainOfIfds,
  longText,
  manyEntries,
  manyPreviews,
  manyStrips,
  nestedIfds,
  tinyBigTiff,
  tinyDng,
  tinyDngPreview,
} from '../../test/vectors/formats/tiff-fixtures.ts';
import { type ByteSource, sourceOfBytes } from './byte-source.ts';
import { inspect } from './inspect.ts';
import { defaultLimits, type Limits } from './limits.ts';

const codesOf = (bytes: Uint8Array, limits: Partial<Limits> = {}): string[] =>
  inspect(sourceOfBytes(bytes), { ...defaultLimits, ...limits }).issues.map((issue) => issue.code);

describe.each([
  ['little-endian', true],
  ['big-endian', false],
])('a %s DNG', (_, littleEndian) => {
  const dng = tinyDng(littleEndian);
  const found = inspect(sourceOfBytes(dng.build()));

  test('gives the tags as they were written', () => {
    expect(found.tags).toMatchObject({
      make: 'Quillmere',
      orientation: 8,
      exposureTime: 1 / 125,
      lensModel: '60 mm x',
      fNumber: undefined,
    });
    expect(found.tags.dng).toMatchObject({
      version: [1, 4, 0, 0],
      blackLevel: [512, 513, 514, 515],
      whiteLevel: [16_000],
      cfaPattern: [0, 1, 1, 2],
      defaultCropSize: [5, 3],
      colorMatrix1: undefined,
    });
  });

  test('is as large as its default crop (DNG 1.4, DefaultCropSize)', () => {
    expect([found.pictureWidthPx, found.pictureHeightPx]).toEqual([5, 3]);
  });

  test('is whole, without issues, and expects exactly the bytes it has', () => {
    expect(found.wholeness).toEqual({ kind: 'whole' });
    expect(found.issues).toEqual([]);
    expect(found.expectedBytes).toBe(dng.at('end'));
    expect(found.wanted).toEqual([]);
    expect(found.wantedNext).toBeNull();
  });

  test('announces its previews where they are', () => {
    expect(found.previews).toEqual([
      {
        offset: dng.at('thumbnail'),
        length: 24,
        widthPx: 4,
        heightPx: 2,
        compression: 'uncompressed-rgb',
        complete: true,
        colourSpace: null,
      },
      {
        offset: dng.at('preview'),
        length: dng.at('strip 1') - dng.at('preview'),
        ...tinyDngPreview,
        compression: 'jpeg',
        complete: true,
        colourSpace: 'srgb',
      },
    ]);
  });
});

test('while a file grows, a preview is announced first and complete at its last byte', () => {
  const dng = tinyDng();
  const bytes = dng.build();
  const end = dng.at('strip 1');
  const before = inspect(sourceOfBytes(bytes.subarray(0, end - 1), false));
  expect(before.previews.map((preview) => preview.complete)).toEqual([true, false]);
  expect(before.wantedNext).toBe(end);
  const after = inspect(sourceOfBytes(bytes.subarray(0, end), false));
  expect(after.previews.map((preview) => preview.complete)).toEqual([true, true]);
});

test('a preview whose JPEG is lossless cannot be shown and is none', () => {
  const dng = tinyDng();
  const bytes = dng.build();
  // SOF3 (T.81 table B.1) in the place of SOF0, right behind SOI.
  bytes[dng.at('preview') + 3] = 0xc3;
  const found = inspect(sourceOfBytes(bytes));
  expect(found.previews).toHaveLength(1);
  expect(found.issues.map((issue) => issue.code)).toEqual(['preview-not-viewable']);
});

test('a picture of 16 bits that calls itself JPEG is no preview, whatever its name for the compression', () => {
  const dng = tinyDng();
  const bytes = dng.spoiled('preview PreviewColorSpace value', 16);
  const view = new DataView(bytes.buffer);
  view.setUint16(dng.at('preview PreviewColorSpace tag'), 0x0102, true); // BitsPerSample
  expect(inspect(sourceOfBytes(bytes)).previews.map((preview) => preview.compression)).toEqual([
    'uncompressed-rgb',
  ]);
});

test('a reduced JPEG in several strips is several JPEGs (TIFF Technical Note 2), so no preview', () => {
  const dng = tinyDng();
  const bytes = dng.spoiled('raw NewSubfileType value', 1);
  const view = new DataView(bytes.buffer);
  view.setUint16(dng.at('raw BitsPerSample value'), 8, true);
  view.setUint16(dng.at('raw PhotometricInterpretation tag'), 0x0103, true); // Compression
  view.setUint16(dng.at('raw PhotometricInterpretation value'), 7, true);
  const found = inspect(sourceOfBytes(bytes));
  expect(found.previews).toHaveLength(2);
  expect(found.issues).toEqual([]);
});

test('a size that the tags and the JPEG disagree on is the JPEG’s', () => {
  const dng = tinyDng();
  const found = inspect(sourceOfBytes(dng.spoiled('preview ImageWidth value', 99)));
  expect(found.previews[1]?.widthPx).toBe(tinyDngPreview.widthPx);
});

test.each([true, false])('BigTIFF is read with its 64-bit offsets (little-endian: %s)', (littleEndian) => {
  const tiff = tinyBigTiff(littleEndian);
  const found = inspect(sourceOfBytes(tiff.build()));
  expect(found).toMatchObject({
    kind: 'tiff',
    wholeness: { kind: 'whole' },
    expectedBytes: tiff.at('end'),
    pictureWidthPx: 2,
    pictureHeightPx: 2,
  });
});

test('directories that point in a circle are read once each', () => {
  const found = inspect(sourceOfBytes(chainOfIfds(3, 'IFD 1').build()));
  expect(found.issues).toEqual([{ code: 'ifd-loop', offset: 8, severity: 'warning' }]);
});

test('a claim that no classic TIFF can hold proves nothing, one that it can hold proves the cut', () => {
  const dng = tinyDng();
  // 24 bytes from 2^32 - 24 end at the last offset that 32 bits reach (TIFF 6.0 section 2).
  const last = inspect(sourceOfBytes(dng.spoiled('IFD0 StripOffsets value', 2 ** 32 - 24)));
  expect(last.wholeness).toEqual({ kind: 'cut', expectedBytes: 2 ** 32 });
  const past = inspect(sourceOfBytes(dng.spoiled('IFD0 StripOffsets value', 2 ** 32 - 23)));
  expect(past.wholeness).toEqual({ kind: 'unknown' });
  expect(past.issues.map((issue) => issue.code)).toContain('claim-past-format');
});

test.each([
  [9, 'SLONG, negative'],
  [11, 'FLOAT, not a number'],
])('strip offsets of type %i (%s) prove nothing, neither whole nor cut', (type) => {
  const dng = tinyDng();
  const bytes = dng.spoiled('IFD0 StripOffsets value', 0xffc00000);
  new DataView(bytes.buffer).setUint16(dng.at('IFD0 StripOffsets type'), type, true);
  const found = inspect(sourceOfBytes(bytes));
  expect(found.wholeness).toEqual({ kind: 'unknown' });
  expect(found.issues.map((issue) => issue.code)).toEqual(['claim-not-a-place']);
});

test('a size of another type than a whole number is no size', () => {
  const dng = tinyDng();
  const bytes = dng.build();
  for (const label of ['raw DefaultCropSize type', 'raw ImageWidth type']) {
    new DataView(bytes.buffer).setUint16(dng.at(label), 11, true); // FLOAT
  }
  const found = inspect(sourceOfBytes(bytes));
  expect([found.pictureWidthPx, found.pictureHeightPx]).toEqual([null, null]);
});

describe('bounds hold just below and just above', () => {
  test('directories', () => {
    expect(codesOf(chainOfIfds(4).build(), { ifdsMax: 4 })).toEqual([]);
    expect(codesOf(chainOfIfds(5).build(), { ifdsMax: 4 })).toEqual(['ifd-too-many']);
  });

  test('depth', () => {
    expect(codesOf(nestedIfds(3).build(), { ifdDepthMax: 3 })).toEqual([]);
    expect(codesOf(nestedIfds(4).build(), { ifdDepthMax: 3 })).toEqual(['ifd-too-many']);
  });

  test('entries', () => {
    expect(codesOf(manyEntries(20).build(), { entriesMax: 20 })).not.toContain('ifd-too-many-entries');
    expect(codesOf(manyEntries(21).build(), { entriesMax: 20 })).toContain('ifd-too-many-entries');
  });

  test('strips, and above the bound a file is not called whole', () => {
    const limits = { ...defaultLimits, piecesMax: 10 };
    expect(inspect(sourceOfBytes(manyStrips(10).build()), limits).wholeness.kind).toBe('whole');
    const above = inspect(sourceOfBytes(manyStrips(11).build()), limits);
    expect(above.wholeness.kind).toBe('unknown');
    expect(above.issues.map((issue) => issue.code)).toContain('pieces-too-many');
  });

  test('text', () => {
    const makeOf = (length: number): string | undefined =>
      inspect(sourceOfBytes(longText(length).build()), { ...defaultLimits, textBytesMax: 100 }).tags.make;
    expect(makeOf(99)).toHaveLength(99);
    expect(makeOf(101)).toHaveLength(100);
  });

  test('previews', () => {
    const countOf = (count: number): number =>
      inspect(sourceOfBytes(manyPreviews(count).build()), { ...defaultLimits, previewsMax: 3 }).previews
        .length;
    expect(countOf(3)).toBe(3);
    expect(countOf(4)).toBe(3);
  });

  test('bytes read for structure', () => {
    const bytes = manyStrips(1000).build();
    expect(codesOf(bytes)).toEqual([]);
    const used = bytesRead(bytes);
    expect(codesOf(bytes, { structureBytesMax: used })).toEqual([]);
    expect(codesOf(bytes, { structureBytesMax: used - 1 })).toContain('structure-too-large');
  });

  test('issues that are listed', () => {
    const bytes = manyPreviews(9)
      .build()
      .map((byte) => (byte === 0xc0 ? 0xc3 : byte)); // nine lossless previews
    expect(codesOf(bytes, { issuesMax: 9 })).toHaveLength(9);
    expect(codesOf(bytes, { issuesMax: 8 })).toHaveLength(8);
  });

  test('ranges wanted at once', () => {
    const spread: ByteSource = { sizeBytes: 2 ** 31, ended: false, read: () => null };
    expect(inspect(spread).wanted.length).toBeLessThanOrEqual(defaultLimits.wantedMax);
  });
});

function bytesRead(bytes: Uint8Array): number {
  let read = 0;
  const inner = sourceOfBytes(bytes);
  inspect({
    ...inner,
    read: (offset, length) => {
      const found = inner.read(offset, length);
      read += found?.length ?? 0;
      return found;
    },
  });
  return read;
}
