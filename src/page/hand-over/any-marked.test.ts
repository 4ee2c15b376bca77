import { expect, test } from 'vitest';
import { frameListOf } from '../state/frame-list.ts';
import { sampleFrame } from '../testing/sample-frame.ts';
import { anyMarked } from './any-marked.ts';

test('only frames of the job and of the shoot count, by the marks that are asked for', () => {
  const frames = frameListOf([
    { ...sampleFrame('a', 0, { mark: 'select' }), job: 'QM-26' },
    { ...sampleFrame('b', 10, { mark: 'hero' }), job: 'OTHER' },
    // A rehearsal's, which is no frame of the shoot.
    { ...sampleFrame('r', 20, { mark: 'hero', name: 'REHEARSE.JPG', purpose: 'test' }), job: 'QM-26' },
  ]);
  expect(anyMarked(frames, 'QM-26', ['hero', 'select'])).toBe(true);
  expect(anyMarked(frames, 'QM-26', ['hero', 'alternate'])).toBe(false);
  expect(anyMarked(frames, 'OTHER', ['hero'])).toBe(true);
  expect(anyMarked(frames, 'QM-26', [])).toBe(false);
});
