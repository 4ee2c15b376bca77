import { expect, test } from 'vitest';
import { beatMs, earlyBytes, ProgressBeat } from './progress-beat.ts';

test('K8.2 the first word comes with the first 64 KiB, not before', () => {
  const beat = new ProgressBeat(0, 0);
  expect(beat.due(earlyBytes - 1, 1)).toBe(false);
  expect(beat.due(earlyBytes, 1)).toBe(true);
  expect(beat.due(earlyBytes + 1, 1)).toBe(false);
});

test('K8.2 then no oftener than every 50 ms, however much has come', () => {
  const beat = new ProgressBeat(0, 0);
  beat.due(earlyBytes, 1);
  expect(beat.due(1000 * earlyBytes, beatMs)).toBe(false);
  expect(beat.due(1000 * earlyBytes, beatMs + 1)).toBe(true);
});

test('K8.2 when the line pauses, what is untold is told, and nothing twice', () => {
  const beat = new ProgressBeat(0, 0);
  beat.due(earlyBytes, 1);
  expect(beat.last(earlyBytes + 1, 2)).toBe(true);
  expect(beat.last(earlyBytes + 1, 3)).toBe(false);
});

test('K8.2 after 50 ms, where bytes have come', () => {
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
