import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { baselineJpeg, cameraJpeg, progressiveJpeg } from '../../test/vectors/formats/jpeg-fixtures.ts';
import { tinyBigTiff, tinyDng } from '../../test/vectors/formats/tiff-fixtures.ts';
import { type ByteRange, sourceOfBytes } from './byte-source.ts';
import { inspect } from './inspect.ts';
import { inspectArrived } from './inspect-arrived.ts';
import type { Inspection } from './inspection.ts';
import { SparseSource } from './sparse-source.ts';

const fixtures: readonly (readonly [string, Uint8Array])[] = [
  ['little-endian DNG', tinyDng().build()],
  ['big-endian DNG', tinyDng(false).build()],
  ['BigTIFF', tinyBigTiff().build()],
  ['baseline JPEG', baselineJpeg(2000, 1500).build()],
  ['progressive JPEG', progressiveJpeg(2000, 1500).build()],
  ['camera JPEG', cameraJpeg(2000, 1500).build()],
];

/** What must be the same however the bytes came. */
const outcome = ({ resume, issues, ...rest }: Inspection): unknown => ({
  ...rest,
  codes: issues.map((i) => i.code),
});

describe.each(fixtures)('%s', (_, bytes) => {
  test('cut anywhere it is never whole, and where the proof says how long it should be, it says the truth', () => {
    for (let end = 0; end < bytes.length; end++) {
      const { wholeness } = inspect(sourceOfBytes(bytes.subarray(0, end)));
      expect(wholeness.kind, `cut at ${end}`).not.toBe('whole');
      if (wholeness.kind === 'cut') expect([null, bytes.length]).toContain(wholeness.expectedBytes);
    }
    expect(inspect(sourceOfBytes(bytes)).wholeness.kind).toBe('whole');
  });

  test('from its first directory or marker on, every cut is proved', () => {
    const first = Array.from({ length: bytes.length }, (_, end) => end).find(
      (end) => inspect(sourceOfBytes(bytes.subarray(0, end))).wholeness.kind === 'cut',
    );
    expect(first).toBeLessThanOrEqual(16);
    for (let end = first ?? 0; end < bytes.length; end++) {
      expect(inspect(sourceOfBytes(bytes.subarray(0, end))).wholeness.kind, `cut at ${end}`).toBe('cut');
    }
  });

  test('what it expects only grows, and is reached at the end', () => {
    let expected = 0;
    for (let end = 16; end <= bytes.length; end++) {
      const now = inspect(sourceOfBytes(bytes.subarray(0, end), false)).expectedBytes ?? 0;
      expect(now).toBeGreaterThanOrEqual(expected);
      expected = now;
    }
    expect(expected).toBe(bytes.length);
  });

  test('asking again at each position it names shows every preview as early as asking at every byte', () => {
    const seenAt = (positions: (found: Inspection, size: number) => number): Map<number, number> => {
      const seen = new Map<number, number>();
      let previous: Inspection | null = null;
      for (let size = 0; ; ) {
        const found: Inspection = inspect(sourceOfBytes(bytes.subarray(0, size), false), undefined, previous);
        previous = found;
        for (const preview of found.previews) {
          if (preview.complete && !seen.has(preview.offset)) seen.set(preview.offset, size);
        }
        if (size === bytes.length) return seen;
        size = Math.min(bytes.length, positions(found, size));
      }
    };
    const everyByte = seenAt((_, size) => size + 1);
    expect(seenAt((found) => found.wantedNext ?? bytes.length)).toEqual(everyByte);
  });

  test('byte by byte, resumed, through a sparse source, or whole: the same outcome', async () => {
    const whole = outcome(inspect(sourceOfBytes(bytes)));
    let previous: Inspection | null = null;
    const sparse = new SparseSource();
    for (let end = 1; end <= bytes.length; end++) {
      previous = inspect(sourceOfBytes(bytes.subarray(0, end), end === bytes.length), undefined, previous);
      sparse.grow(end);
      await inspectArrived(sparse, loadFrom(bytes.subarray(0, end)));
    }
    sparse.end();
    expect(previous && outcome(previous)).toEqual(whole);
    expect(outcome(await inspectArrived(sparse, loadFrom(bytes)))).toEqual(whole);
  });

  test('split anywhere in two, the outcome is the same', () => {
    const whole = outcome(inspect(sourceOfBytes(bytes)));
    for (let split = 0; split <= bytes.length; split++) {
      const first = inspect(sourceOfBytes(bytes.subarray(0, split), false));
      expect(outcome(inspect(sourceOfBytes(bytes), undefined, first)), `split at ${split}`).toEqual(whole);
    }
  });

  test('one byte changed anywhere: no exception, and the verdict still does not depend on a cut tail', () => {
    fc.assert(
      fc.property(fc.nat(bytes.length - 1), fc.nat(255), fc.nat(bytes.length), (at, value, cut) => {
        const spoiled = bytes.slice();
        spoiled[at] = value;
        const part = inspect(sourceOfBytes(spoiled.subarray(0, cut)));
        const full = inspect(sourceOfBytes(spoiled));
        // Once the bytes prove a file whole, more bytes do not prove it cut.
        if (part.wholeness.kind === 'whole') expect(full.wholeness.kind).toBe('whole');
      }),
      { numRuns: 2000 },
    );
  });
});

function loadFrom(bytes: Uint8Array): (range: ByteRange) => Promise<Uint8Array> {
  return async ({ offset, length }) => bytes.subarray(offset, offset + length);
}
