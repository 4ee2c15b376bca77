import { expect, test } from 'vitest';
import { sampleFrame } from '../testing/sample-frame.ts';
import { exposureLine } from './exposure-line.ts';

const { capture } = sampleFrame('a', 0);

test('exposure is written as on a slate: short times as fractions, long ones in seconds', () => {
  expect(exposureLine(capture)).toBe('1/125 s  f/8  ISO 100  85 mm');
  expect(exposureLine({ ...capture, exposureTimeS: 0.5, fNumber: 5.6 })).toBe('0.5 s  f/5.6  ISO 100  85 mm');
});

test('what the camera did not say is left out', () => {
  expect(exposureLine({ ...capture, fNumber: null, focalLengthMm: null })).toBe('1/125 s  ISO 100');
});
