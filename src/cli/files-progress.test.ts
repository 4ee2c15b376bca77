import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { filesProgress } from './files-progress.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

function terminal() {
  const written: string[] = [];
  return { written, stream: { isTTY: true, write: (text: string) => written.push(text) } };
}

test('of a single file the step that is under way is named once it takes half a second, and for how long', () => {
  const { written, stream } = terminal();
  const progress = filesProgress(1, stream);
  const ended = progress.begin('rendering', 'A.DNG');
  vi.advanceTimersByTime(499);
  expect(written).toEqual([]);
  vi.advanceTimersByTime(2501);
  expect(written.at(-1)).toBe('\rrendering A.DNG, 3 s\u001b[K');
  ended();
  expect(written.at(-1)).toBe('\r\u001b[K');
  progress.close();
  const count = written.length;
  vi.advanceTimersByTime(5000);
  expect(written.length).toBe(count);
});

test('what ends after it was closed writes nothing any more: a run that is broken off names no next file', () => {
  const { written, stream } = terminal();
  const progress = filesProgress(2, stream);
  const ended = progress.begin('rendering', 'A.DNG');
  progress.begin('rendering', 'B.DNG');
  vi.advanceTimersByTime(3000);
  progress.close();
  const count = written.length;
  ended();
  progress.oneMore();
  expect(written.length).toBe(count);
  expect(written.at(-1)).toBe('\r\u001b[K');
  expect(progress.done()).toBe(1);
});

test('how far a step is stands before how long it takes, as it is when the line is written', () => {
  const { written, stream } = terminal();
  const progress = filesProgress(1, stream);
  let share = 10;
  progress.begin('rendering', 'A.DNG', () => `making the picture ${share} %`);
  vi.advanceTimersByTime(1000);
  expect(written.at(-1)).toBe('\rrendering A.DNG, making the picture 10 %, 1 s\u001b[K');
  share = 60;
  vi.advanceTimersByTime(1000);
  expect(written.at(-1)).toBe('\rrendering A.DNG, making the picture 60 %, 2 s\u001b[K');
  progress.close();
});

test('of several the line counts them and names the step that was begun first', () => {
  const { written, stream } = terminal();
  const progress = filesProgress(3, stream);
  expect(written).toEqual(['\r0 of 3 files\u001b[K']);
  const first = progress.begin('rendering', 'A.DNG');
  progress.begin('rendering', 'B.DNG');
  vi.advanceTimersByTime(1000);
  expect(written.at(-1)).toBe('\r0 of 3 files: rendering A.DNG, 1 s\u001b[K');
  first();
  progress.oneMore();
  expect(written.at(-1)).toBe('\r1 of 3 files: rendering B.DNG, 1 s\u001b[K');
  progress.close();
});

test('nothing is written where nobody looks', () => {
  const written: string[] = [];
  const progress = filesProgress(2, { write: (text: string) => written.push(text) });
  progress.begin('rendering', 'A.DNG');
  vi.advanceTimersByTime(3000);
  progress.oneMore();
  progress.close();
  expect(written).toEqual([]);
});
