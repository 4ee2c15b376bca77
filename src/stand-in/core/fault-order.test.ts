import { expect, test } from 'vitest';
import { faultTextLengthMax, parseFaultOrder } from './fault-order.ts';
import { faultFacts, faultNames, faultsAt, faultValue } from './faults.ts';

test.each([
  ['strobe@4', { name: 'strobe', value: null, frames: [4] }],
  ['cut=60@2,5', { name: 'cut', value: 60, frames: [2, 5] }],
  ['cut=60%@2, 5', { name: 'cut', value: 60, frames: [2, 5] }],
  ['tint=4500', { name: 'tint', value: 4500, frames: 'each' }],
  ['tint=4500 K', { name: 'tint', value: 4500, frames: 'each' }],
  ['clock=-90.5', { name: 'clock', value: -90.5, frames: 'each' }],
  ['clock', { name: 'clock', value: 60, frames: 'each' }],
  ['wrap', { name: 'wrap', value: null, frames: [2] }],
  ['wrap@7', { name: 'wrap', value: null, frames: [7] }],
])('%s is read as it is meant', (text, order) => {
  expect(parseFaultOrder(text)).toEqual(order);
});

test.each([
  ['', 'one of the faults cut, duplicate'],
  ['Cut', 'one of the faults cut, duplicate'],
  ['strobe=1', 'strobe without a value'],
  ['cut=0', 'cut to be from 1 to 99 %'],
  ['cut=100', 'cut to be from 1 to 99 %'],
  ['cut=', 'cut to be from 1 to 99 %'],
  ['cut=6e1', 'cut to be from 1 to 99 %'],
  ['cut=60=70', 'cut to be from 1 to 99 %'],
  ['gap=1.5', 'gap to be a whole number from 1 to 9000'],
  ['cut@', 'frame numbers from 1'],
  ['cut@0', 'frame numbers from 1'],
  ['cut@2,', 'frame numbers from 1'],
  ['cut@100001', 'frame numbers from 1'],
  ['cut@2@3', 'frame numbers from 1'],
  ['wrap@2,3', 'one frame for wrap'],
])('"%s" is refused with what was expected', (text, expected) => {
  expect(() => parseFaultOrder(text)).toThrow(
    expect.objectContaining({
      code: 'stand-in-wrong-option',
      message: expect.stringContaining(`--fault: expected ${expected}`),
    }),
  );
});

test('a fault of a thousand characters is read, a longer one is not', () => {
  const longest = `cut@${'1,'.repeat(498)}`;
  expect(parseFaultOrder(`${longest.slice(0, -1)}`.padEnd(faultTextLengthMax, ' ')).frames).toHaveLength(498);
  expect(() => parseFaultOrder(`cut@1`.padEnd(faultTextLengthMax + 1, ' '))).toThrow('at most 1000');
});

test('every default lies in its own range', () => {
  for (const name of faultNames) {
    const { value } = faultFacts[name];
    if (value === null) continue;
    expect(value.default, name).toBeGreaterThanOrEqual(value.from);
    expect(value.default, name).toBeLessThanOrEqual(value.to);
  }
});

test('a frame has the faults ordered for it; the later of two orders for one fault counts', () => {
  const orders = ['soft=1', 'cut@2', 'soft=3@2'].map(parseFaultOrder);
  expect(faultsAt(orders, 1)).toEqual([{ name: 'soft', value: 1 }]);
  expect(faultsAt(orders, 2)).toEqual([
    { name: 'soft', value: 3 },
    { name: 'cut', value: 60 },
  ]);
  expect(faultValue(faultsAt(orders, 2), 'soft')).toBe(3);
  expect(faultValue([{ name: 'strobe', value: null }], 'strobe')).toBe(0);
  expect(faultValue([], 'strobe')).toBeUndefined();
});
