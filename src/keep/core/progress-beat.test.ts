import { expect, test } from 'vitest';
import { beatBytes, beatMs, earlyBytes, ProgressBeat } from './progress-beat.ts';

test('K8.2 the first word comes with the first 64 KiB, not before', () => {
  const beat = new ProgressBeat(0, 0);
  expect(beat.due(earlyBytes - 1, 1)).toBe(false);
  expect(beat.due(earlyBytes, 1)).toBe(true);
  expect(beat.due(earlyBytes + 1, 1)).toBe(false);
});

test('K8.2 then every 256 KiB', () => {
  const beat = new ProgressBeat(0, 0);
  beat.due(earlyBytes, 1);
  expect(beat.due(earlyBytes + beatBytes - 1, 1)).toBe(false);
  expect(beat.due(earlyBytes + beatBytes, 1)).toBe(true);
});

test('K8.2 or after 100 ms, where bytes have come', () => {
  const beat = new ProgressBeat(0, 0);
  expect(beat.due(10, beatMs - 1)).toBe(false);
  expect(beat.due(10, beatMs)).toBe(true);
  expect(beat.due(10, 3 * beatMs)).toBe(false);
  expect(beat.due(11, 3 * beatMs)).toBe(true);
});

test('K8.2 a trickle before the first 64 KiB does not use up the early word', () => {
  const beat = new ProgressBeat(0, 0);
  expect(beat.due(1000, beatMs)).toBe(true);
  expect(beat.due(earlyBytes, beatMs)).toBe(true);
});
