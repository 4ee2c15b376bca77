import { expect, test } from 'vitest';
import { type SilenceFacts, shootingMs, silentSinceMs } from './silence.ts';

const minute = 60_000;
const facts: SilenceFacts = {
  lastFrameMs: 0,
  lastSeenMs: 1000,
  connected: false,
  quietMs: null,
  silentAfterMs: 10 * minute,
  nowMs: 10 * minute + 1000,
};

test('a camera that is being shot with and was not heard of for ten minutes is silent since then', () => {
  expect(silentSinceMs(facts)).toBe(1000);
  expect(silentSinceMs({ ...facts, nowMs: facts.nowMs - 1 })).toBeNull();
});

test('one that is connected, that never sent a frame, or sent none for an hour, is not spoken of', () => {
  expect(silentSinceMs({ ...facts, connected: true })).toBeNull();
  expect(silentSinceMs({ ...facts, lastFrameMs: null })).toBeNull();
  expect(silentSinceMs({ ...facts, nowMs: shootingMs + 1 })).toBeNull();
  expect(silentSinceMs({ ...facts, nowMs: shootingMs })).toBe(1000);
});

test('"not shooting now" holds until its next frame', () => {
  expect(silentSinceMs({ ...facts, quietMs: 5000 })).toBeNull();
  expect(silentSinceMs({ ...facts, quietMs: 5000, lastFrameMs: 6000, nowMs: 6000 + 10 * minute })).toBe(6000);
});
