import { expect, test } from 'vitest';
import { dcfName } from './dcf-name.ts';
import { parseFaultOrder } from './fault-order.ts';
import { faultsAt } from './faults.ts';
import { frameOrdinals } from './frame-ordinals.ts';

/** Stems of a session of `frames` with these faults. */
function stems(frames: number, next: number, ...faults: string[]): string[] {
  const orders = faults.map(parseFaultOrder);
  const plan = Array.from({ length: frames }, (_, index) => ({ faults: faultsAt(orders, index + 1) }));
  return frameOrdinals(plan, next).map((ordinal) => dcfName(ordinal, 'QMST').stem);
}

test('without faults the counter goes on from where it stands', () => {
  expect(stems(3, 7)).toEqual(['QMST0007', 'QMST0008', 'QMST0009']);
});

test('a gap leaves out as many numbers as it is told, in front of its frame', () => {
  expect(stems(4, 1, 'gap=3@3')).toEqual(['QMST0001', 'QMST0002', 'QMST0006', 'QMST0007']);
});

// DCF 2.0 (CIPA DC-009) section 3.2.4: file numbers run from 0001 to 9999.
test.each([1, 42, 9998, 9999, 10_000, 25_000])(
  'a counter at %i is set so that it wraps at the frame',
  (next) => {
    expect(stems(4, next, 'wrap@3')).toEqual(['QMST9998', 'QMST9999', 'QMST0001', 'QMST0002']);
    const plan = [{ faults: [] }, { faults: [{ name: 'wrap', value: null } as const] }];
    const [first = 0, second = 0] = frameOrdinals(plan, next);
    expect(first).toBeGreaterThanOrEqual(next);
    expect([first % 9999, second % 9999]).toEqual([0, 1]);
  },
);

test('a gap before the wrap is counted in', () => {
  expect(stems(3, 1, 'gap=2@2', 'wrap@3')).toEqual(['QMST9996', 'QMST9999', 'QMST0001']);
});
