import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cameraJpeg } from '../../test/vectors/formats/jpeg-fixtures.ts';
import { tinyBigTiff, tinyDng } from '../../test/vectors/formats/tiff-fixtures.ts';
import { type ByteSource, sourceOfBytes } from './byte-source.ts';
import { inspect } from './inspect.ts';
import { inspectArrived } from './inspect-arrived.ts';
import { defaultLimits, jpegStepBytes, type Limits } from './limits.ts';
import { SparseSource } from './sparse-source.ts';

/** Small, so that a parser which counts wrongly meets its bound within a test. */
const limits: Limits = { ...defaultLimits, structureBytesMax: 64 * 1024, walkBytesMax: 1024 * 1024 };

const fixtures = [
  tinyDng().build(),
  tinyDng(false).build(),
  tinyBigTiff().build(),
  cameraJpeg(2000, 1500).build(),
];

/** A file that says it is as long as it likes: `tile` over and over. Fails the test on any read past the bound. */
function endless(tile: Uint8Array, sizeBytes: number): ByteSource & { readonly readBytes: () => number } {
  let readBytes = 0;
  const longest = Math.max(limits.structureBytesMax, jpegStepBytes);
  return {
    sizeBytes,
    ended: true,
    readBytes: () => readBytes,
    read(offset, length) {
      expect(length).toBeLessThanOrEqual(longest);
      expect(offset).toBeGreaterThanOrEqual(0);
      if (offset + length > sizeBytes) return null;
      readBytes += length;
      return Uint8Array.from({ length }, (_, i) => tile[(offset + i) % tile.length] ?? 0);
    },
  };
}

/** Structure, the Exif segment's own structure, the walk with its last step, and a preview head or two. */
const readBytesMax = 2 * limits.structureBytesMax + 2 * limits.walkBytesMax + 2 * jpegStepBytes;

describe('whatever a file holds or claims, an inspection ends within its bounds and does not throw', () => {
  test('random bytes behind every signature', () => {
    const heads = [
      '',
      'II*\0\x08\0\0\0',
      'MM\0*\0\0\0\x08',
      'II+\0\x08\0\0\0',
      '\xff\xd8\xff',
      '\xff\xd8\xff\xe1',
    ];
    fc.assert(
      fc.property(
        fc.constantFrom(...heads),
        fc.uint8Array({ maxLength: 600 }),
        fc.boolean(),
        (head, tail, ended) => {
          const bytes = Uint8Array.from([...Array.from(head, (char) => char.charCodeAt(0)), ...tail]);
          bounded(inspect(sourceOfBytes(bytes, ended), limits));
        },
      ),
      { numRuns: 3000 },
    );
  });

  test('fixtures with any run of bytes overwritten', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...fixtures),
        fc.array(fc.tuple(fc.nat(600), fc.uint8Array({ minLength: 1, maxLength: 8 })), { maxLength: 6 }),
        (fixture, patches) => {
          const bytes = fixture.slice();
          for (const [at, patch] of patches) bytes.set(patch, at % (bytes.length - 8));
          bounded(inspect(sourceOfBytes(bytes), limits));
        },
      ),
      { numRuns: 3000 },
    );
  });

  test('endless files of 2 GiB to 8 PiB made of fixtures and noise', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...fixtures),
        fc.uint8Array({ minLength: 1, maxLength: 400 }),
        fc.integer({ min: 31, max: 53 }),
        (fixture, noise, exponent) => {
          const source = endless(Uint8Array.from([...fixture, ...noise]), 2 ** exponent - 1);
          bounded(inspect(source, limits));
          expect(source.readBytes()).toBeLessThanOrEqual(readBytesMax);
        },
      ),
      { numRuns: 60 },
    );
  });

  test('every 32-bit field of a DNG at its extremes', () => {
    const bytes = tinyDng().build();
    for (let at = 0; at + 4 <= bytes.length; at++) {
      for (const value of [0, 1, 0x7fffffff, 0xffffffff]) {
        const spoiled = bytes.slice();
        new DataView(spoiled.buffer).setUint32(at, value, true);
        bounded(inspect(sourceOfBytes(spoiled), limits));
      }
    }
  });
});

test('a loader that brings nothing ends the loop', async () => {
  const source = new SparseSource();
  source.grow(1000);
  const found = await inspectArrived(source, async () => null);
  expect(found.wanted.length).toBeGreaterThan(0);
});

test('a source too small for what is wanted does not load for ever', async () => {
  const dng = tinyDng().build();
  // The preview's head lies where the directories do not: one block of memory forgets one for the other.
  const far = 1024 * 1024;
  const bytes = new Uint8Array(far + dng.length);
  bytes.set(dng);
  new DataView(bytes.buffer).setUint32(tinyDng().at('preview StripOffsets value'), far, true);
  const source = new SparseSource(1);
  source.grow(bytes.length);
  let loadedBytes = 0;
  await inspectArrived(source, async ({ offset, length }) => {
    loadedBytes += length;
    return bytes.subarray(offset, offset + length);
  });
  expect(loadedBytes).toBeLessThan(64 * 1024 * 1024);
});

test('an aborted inspection rejects with the reason of the signal', async () => {
  const source = new SparseSource();
  source.grow(1000);
  const signal = AbortSignal.abort(new Error('enough'));
  await expect(inspectArrived(source, async () => new Uint8Array(1), { signal })).rejects.toThrow('enough');
});

/** What every inspection keeps, whatever it saw. */
function bounded(found: ReturnType<typeof inspect>): void {
  expect(found.previews.length).toBeLessThanOrEqual(limits.previewsMax + 1);
  expect(found.issues.length).toBeLessThanOrEqual(limits.issuesMax);
  expect(found.wanted.length).toBeLessThanOrEqual(limits.wantedMax);
  for (const text of [found.tags.make, found.tags.model, found.tags.lensModel]) {
    expect(text?.length ?? 0).toBeLessThanOrEqual(limits.textBytesMax);
  }
  for (const preview of found.previews) {
    expect(Number.isSafeInteger(preview.offset) && preview.offset >= 0).toBe(true);
    expect(Number.isSafeInteger(preview.length) && preview.length > 0).toBe(true);
    for (const px of [preview.widthPx, preview.heightPx]) expect(px === null || isCount(px)).toBe(true);
  }
  for (const figure of [found.expectedBytes, found.wantedNext, found.pictureWidthPx, found.pictureHeightPx]) {
    expect(figure === null || isCount(figure)).toBe(true);
  }
  if (found.wholeness.kind !== 'cut') return;
  const { expectedBytes } = found.wholeness;
  expect(expectedBytes === null || isCount(expectedBytes)).toBe(true);
}

function isCount(figure: number): boolean {
  return Number.isSafeInteger(figure) && figure >= 0;
}
