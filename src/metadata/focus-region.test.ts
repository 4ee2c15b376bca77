import { expect, test } from 'vitest';
import { focusRegionOf } from './focus-region.ts';

const size = { W: 6000, H: 4000, Unit: 'pixel' };
const area = (more: object) => ({ X: 0.4, Y: 0.75, Unit: 'normalized', ...more });
const focus = (more: object, usage?: string) => ({
  Type: 'Focus',
  Area: area(more),
  ...(usage === undefined ? {} : { FocusUsage: usage }),
});
const of = (...list: object[]) => focusRegionOf({ AppliedToDimensions: size, RegionList: list });

test('a focus region is a box about its middle; faces and codes are none', () => {
  const face = { Type: 'Face', Area: area({ X: 0.5, W: 0.1, H: 0.2 }) };
  expect(of(face)).toBeNull();
  const box = of(face, focus({ W: 0.1, H: 0.2 }));
  expect([box?.left, box?.top, box?.right, box?.bottom].map((each) => each?.toFixed(3))).toEqual([
    '0.350',
    '0.650',
    '0.450',
    '0.850',
  ]);
});

test('the one that was used leads, and what was not looked at does not count', () => {
  const [left, right] = [
    focus({ X: 0.2, W: 0.1, H: 0.1 }, 'Evaluated, Not Used'),
    focus({ X: 0.8, W: 0.1, H: 0.1 }, 'Evaluated, Used'),
  ];
  expect(of(left, right)?.left).toBeCloseTo(0.75, 9);
  expect(of(left)?.left).toBeCloseTo(0.15, 9);
  expect(of(focus({ W: 0.1, H: 0.1 }, 'Not Evaluated, Not Used'))).toBeNull();
});

test('a circle and a bare point are as wide as they are high, in pixels', () => {
  const circle = of(focus({ D: 0.3 }));
  expect((circle?.right ?? 0) - (circle?.left ?? 0)).toBeCloseTo(0.2, 9);
  expect((circle?.bottom ?? 0) - (circle?.top ?? 0)).toBeCloseTo(0.3, 9);
  const point = of(focus({}));
  expect(((point?.right ?? 0) - (point?.left ?? 0)) * 6000).toBeCloseTo(480, 6);
  expect(((point?.bottom ?? 0) - (point?.top ?? 0)) * 4000).toBeCloseTo(480, 6);
});

test('what is of another shape is nothing', () => {
  for (const info of [
    undefined,
    null,
    7,
    'x',
    {},
    { RegionList: {} },
    { RegionList: [null, 3, { Type: 'Focus' }] },
  ]) {
    expect(focusRegionOf(info)).toBeNull();
  }
  for (const more of [{ X: -1 }, { Y: 2 }, { X: 'there' }, { Unit: 'pixel' }])
    expect(of(focus(more))).toBeNull();
});
