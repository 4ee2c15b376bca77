import { expect, test } from 'vitest';
import { partBytesLeast, pauseBefore } from './limits.ts';
import { partsMax, planParts } from './parts.ts';

const MiB = 1024 * 1024;

test('what fits into one part is sent whole, one byte more is not', () => {
  expect(planParts(0)).toBeNull();
  expect(planParts(partBytesLeast)).toBeNull();
  expect(planParts(partBytesLeast + 1)).toEqual([
    { number: 1, start: 0, bytes: partBytesLeast },
    { number: 2, start: partBytesLeast, bytes: 1 },
  ]);
});

/** Amazon S3 User Guide, "Amazon S3 multipart upload limits" (from memory): 1 to 10,000 parts of 5 MiB to 5 GiB, the last one smaller; 5 TiB in all. */
test('parts keep the published limits up to the largest object, and hold every byte once', () => {
  for (const bytes of [8 * MiB + 1, 99 * MiB, 80_000 * MiB, 80_000 * MiB + 1, 5 * 1024 * 1024 * MiB]) {
    const parts = planParts(bytes) ?? [];
    expect(parts.length).toBeLessThanOrEqual(partsMax);
    expect(Math.min(...parts.slice(0, -1).map((part) => part.bytes))).toBeGreaterThanOrEqual(5 * MiB);
    expect(Math.max(...parts.map((part) => part.bytes))).toBeLessThanOrEqual(5 * 1024 * MiB);
    expect(parts.every(({ start }, index) => start === index * (parts[0]?.bytes ?? 0))).toBe(true);
    const at = parts.reduce((sum, part) => sum + part.bytes, 0);
    expect(at).toBe(bytes);
  }
});

test('each pause is twice the one before, up to the longest', () => {
  const limits = { triesMax: 9, pauseMs: 1000, pauseMsMax: 5000, silenceMsMax: 1 };
  expect([1, 2, 3, 4, 60].map((attempt) => pauseBefore(attempt, limits))).toEqual([
    1000, 2000, 4000, 5000, 5000,
  ]);
});
