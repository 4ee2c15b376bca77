import { expect, test } from 'vitest';
import { withoutPicture } from './without-picture.ts';

test('a reference without a picture is not called no reference', () => {
  expect(withoutPicture({ kind: 'frame', id: 'f1' }, true)).toBe('failed');
  expect(withoutPicture(null, true)).toBe('none');
  expect(withoutPicture({ kind: 'frame', id: 'f1' }, false)).toBe('none');
});
