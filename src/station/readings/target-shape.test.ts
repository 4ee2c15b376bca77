import { expect, test } from 'vitest';
import { hexOfLab } from './target-shape.ts';

test('L*a*b* D50 is shown in sRGB', () => {
  // CSS Color 4, section 9.3 (lab() is D50; from memory): white, black; and its example lab(29.2345% 39.3825 20.0664), about #7d2329.
  expect(hexOfLab([100, 0, 0])).toBe('#ffffff');
  expect(hexOfLab([0, 0, 0])).toBe('#000000');
  expect(hexOfLab([29.2345, 39.3825, 20.0664])).toBe('#7d2329');
  // Beyond sRGB it is cut, not wrapped.
  expect(hexOfLab([90, -128, 128])).toMatch(/^#00ff/);
});
