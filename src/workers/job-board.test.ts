import { expect, test } from 'vitest';
import { callOff, jobWatch, newJobBoard, whereIs } from './job-board.ts';

test('whoever asked sees the stage and how much of it is done', () => {
  const board = newJobBoard();
  expect(whereIs(board)).toEqual({ stage: 'waiting', share: 0 });
  const watch = jobWatch(board);
  watch.begin('reading');
  expect(whereIs(board)).toEqual({ stage: 'reading', share: 0 });
  watch.begin('rendering');
  watch.rows(384, 4000);
  expect(whereIs(board)).toEqual({ stage: 'rendering', share: 0.096 });
  watch.begin('writing');
  expect(whereIs(board)).toEqual({ stage: 'writing', share: 0 });
});

test('a job that was called off ends at its next rows, and at its next stage', () => {
  const board = newJobBoard();
  const watch = jobWatch(board);
  watch.begin('rendering');
  watch.rows(1, 2);
  callOff(board);
  for (const next of [() => watch.rows(2, 2), () => watch.begin('writing')]) {
    expect(next).toThrow(expect.objectContaining({ code: 'worker-called-off' }));
  }
  expect(whereIs(board)).toEqual({ stage: 'rendering', share: 0.5 });
});
