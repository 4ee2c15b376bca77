import { expect, test } from 'vitest';
import { verifyProgress } from './verify-progress.ts';

const half = { doneFiles: 1, files: 2, doneBytes: 5, bytes: 10, original: 'A.DNG' };

test('the line says what is read and is cleared before anything else is printed', () => {
  const written: string[] = [];
  const progress = verifyProgress('copies', { isTTY: true, write: (text) => written.push(text) });
  progress.show(half);
  progress.done();
  expect(written).toEqual(['\r50 % (1 of 2 copies)\u001b[K', '\r\u001b[K']);
});

test('nothing is written where nobody looks', () => {
  const written: string[] = [];
  const progress = verifyProgress('originals', { write: (text) => written.push(text) });
  progress.show(half);
  progress.done();
  expect(written).toEqual([]);
});
