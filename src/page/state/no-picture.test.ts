import { expect, test } from 'vitest';
import type { Frame } from '../../contract/index.ts';
import { sentence } from '../../words/index.ts';
import { sampleFile, sampleFrame } from '../testing/sample-frame.ts';
import { noPictureCode } from './no-picture.ts';

const none: Partial<Frame> = { picture: { state: 'none' } };
const said = (frame: Frame, waiting: boolean): string =>
  sentence({ code: noPictureCode(frame, waiting), args: {} });

test('a frame that is all here is being rendered; nothing of it is still to come', () => {
  expect(said(sampleFrame('a', 0, none), false)).toBe('It is here and is being rendered.');
  expect(said(sampleFrame('a', 0), true)).toBe('It is here; its picture is being made ready.');
});

test('a frame on its way, or broken off, has no picture yet', () => {
  const arriving = { ...none, files: [sampleFile('a.DNG', { state: 'arriving', size: 10 })] };
  expect(said(sampleFrame('a', 0, arriving), false)).toBe('There is nothing to see of it yet.');
  expect(said(sampleFrame('a', 0, arriving), true)).toBe('The picture has not come yet.');
  const broken = { ...none, files: [sampleFile('a.DNG', { state: 'broken-off', size: 10 })] };
  expect(said(sampleFrame('a', 0, broken), false)).toBe('There is nothing to see of it yet.');
});
