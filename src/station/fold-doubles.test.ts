import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { KeepEvent } from '../keep/index.ts';
import { type FoldingKeep, foldInBackground } from './fold-doubles.ts';

let passes: number;
let failure: 'disk-full' | null;
let passesWanted: number;
let tell: (type: KeepEvent['type']) => void;
let close: () => Promise<void>;

beforeEach(() => {
  vi.useFakeTimers();
  passes = 0;
  failure = null;
  passesWanted = 1;
  const listeners = new Set<(event: KeepEvent) => void>();
  const keep: FoldingKeep = {
    on: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    foldDoubles: async () => {
      passes += 1;
      return { files: 0, bytes: 0, failure, more: passes < passesWanted };
    },
  };
  // Only the type of an event matters here.
  tell = (type) => {
    for (const listener of listeners) listener({ type } as KeepEvent);
  };
  close = foldInBackground(keep);
});

afterEach(async () => {
  await close();
  vi.useRealTimers();
});

test('what an earlier station left is looked at once the frames are there', async () => {
  await vi.advanceTimersByTimeAsync(9_999);
  expect(passes).toBe(0);
  await vi.advanceTimersByTimeAsync(1);
  expect(passes).toBe(1);
  await vi.advanceTimersByTimeAsync(3_600_000);
  expect(passes).toBe(1);
});

test('uploads that may have left a double are followed by one pass for all of them, others by none', async () => {
  await vi.advanceTimersByTimeAsync(10_000);
  for (const type of ['again', 'broken-off', 'made-good'] as const) {
    passes = 0;
    for (let times = 0; times < 20; times++) tell(type);
    await vi.advanceTimersByTimeAsync(2_000);
    expect(passes, type).toBe(1);
  }
  passes = 0;
  for (const type of ['started', 'progress', 'kept', 'copied', 'folded'] as const) tell(type);
  await vi.advanceTimersByTimeAsync(100_000);
  expect(passes).toBe(0);
});

test('a pass that a full disk refused is tried again each minute', async () => {
  failure = 'disk-full';
  await vi.advanceTimersByTimeAsync(10_000 + 3 * 60_000);
  expect(passes).toBe(4);
  failure = null;
  await vi.advanceTimersByTimeAsync(10 * 60_000);
  expect(passes).toBe(5);
});

test('where one pass was not enough, others follow with a rest between them', async () => {
  passesWanted = 5;
  await vi.advanceTimersByTimeAsync(10_000);
  expect(passes).toBe(1);
  await vi.advanceTimersByTimeAsync(2_000);
  expect(passes).toBe(2);
  await vi.advanceTimersByTimeAsync(100_000);
  expect(passes).toBe(5);
});

test('nothing is begun after the end', async () => {
  await vi.advanceTimersByTimeAsync(10_000);
  tell('again');
  await close();
  tell('again');
  await vi.advanceTimersByTimeAsync(100_000);
  expect(passes).toBe(1);
});
