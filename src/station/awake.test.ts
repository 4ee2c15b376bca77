import { expect, test, vi } from 'vitest';
import { type Inhibitor, keepAwake } from './awake.ts';

function fakeInhibitor(): Inhibitor & { readonly calls: string[]; fail: () => void } {
  const calls: string[] = [];
  const fake = {
    calls,
    fail: () => {},
    hold: (failed: () => void) => {
      calls.push('hold');
      fake.fail = failed;
    },
    letGo: () => {
      calls.push('let go');
    },
  };
  return fake;
}

test('the computer is held awake while a camera is at work, and no longer', () => {
  vi.useFakeTimers();
  const inhibitor = fakeInhibitor();
  let busy = false;
  const end = keepAwake(
    inhibitor,
    () => busy,
    () => {},
  );
  expect(inhibitor.calls).toEqual([]);
  busy = true;
  vi.advanceTimersByTime(60_000);
  expect(inhibitor.calls).toEqual(['hold']);
  busy = false;
  vi.advanceTimersByTime(60_000);
  expect(inhibitor.calls).toEqual(['hold', 'let go']);
  busy = true;
  vi.advanceTimersByTime(60_000);
  end();
  expect(inhibitor.calls).toEqual(['hold', 'let go', 'hold', 'let go']);
  vi.useRealTimers();
});

test('a system that has no way to is told once and not asked again', () => {
  vi.useFakeTimers();
  const inhibitor = fakeInhibitor();
  const unable = vi.fn();
  const end = keepAwake(inhibitor, () => true, unable);
  inhibitor.fail();
  inhibitor.fail();
  vi.advanceTimersByTime(600_000);
  expect(inhibitor.calls).toEqual(['hold']);
  expect(unable).toHaveBeenCalledTimes(1);
  end();
  vi.useRealTimers();
});
