import { expect, test } from 'vitest';
import { noTags } from '../formats/index.ts';
import { captureFactsOf } from './capture-facts-of.ts';
import { focusAreaOf } from './focus-area.ts';

const size = { pictureWidthPx: 6000, pictureHeightPx: 4000 };

test('a rectangle, a circle and a point are boxes about their middle (Exif 2.32, SubjectArea)', () => {
  expect(focusAreaOf([3000, 2000, 600, 400], size)).toEqual({
    left: 0.45,
    top: 0.45,
    right: 0.55,
    bottom: 0.55,
  });
  expect(focusAreaOf([3000, 2000, 1200], size)).toEqual({ left: 0.4, top: 0.35, right: 0.6, bottom: 0.65 });
  expect(focusAreaOf([3000, 2000], size)).toEqual({ left: 0.46, top: 0.44, right: 0.54, bottom: 0.56 });
  expect(focusAreaOf([10, 10, 600, 400], size)).toMatchObject({ left: 0, top: 0 });
});

test('where there is no area, SubjectLocation is a point (Exif 2.32, tag 0xA214)', () => {
  const inspection = (tags: object) => ({ ...size, tags: { ...noTags, ...tags } });
  const areaOf = (tags: object) => captureFactsOf(inspection(tags), { zoneOffsetMinutes: 0 }).focusArea;
  const point = { left: 0.46, top: 0.44, right: 0.54, bottom: 0.56 };
  expect(areaOf({ subjectLocation: [3000, 2000] })).toEqual(point);
  expect(areaOf({ subjectArea: [0, 0], subjectLocation: [3000, 2000] })).toEqual(point);
  expect(areaOf({ subjectArea: [3000, 2000, 1200], subjectLocation: [10, 10] })).toMatchObject({ left: 0.4 });
});

test('what says nothing is nothing', () => {
  for (const area of [undefined, [], [5], [0, 0], [7000, 10], [Number.NaN, 3], [-5, 3]]) {
    expect(focusAreaOf(area, size)).toBeUndefined();
  }
  expect(focusAreaOf([3000, 2000], { pictureWidthPx: null, pictureHeightPx: null })).toBeUndefined();
});
