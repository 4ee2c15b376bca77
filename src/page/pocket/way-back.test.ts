import { expect, test } from 'vitest';
import { sampleFrame } from '../testing/sample-frame.ts';
import { actOf, wayBack } from './way-back.ts';

test('an act is taken back on its own frame, and only while what it chose still holds', () => {
  const frame = sampleFrame('f1', 0, { mark: 'hero', shot: 'mug' });
  const act = actOf(frame, { mark: 'out' });
  expect(wayBack(act, { ...frame, mark: 'out' })).toEqual({ mark: 'hero' });
  // Moved meanwhile by somebody: the mark is still the phone's.
  expect(wayBack(act, { ...frame, mark: 'out', shot: 'jug' })).toEqual({ mark: 'hero' });
  expect(wayBack(act, { ...frame, mark: 'select' })).toBeNull();
  expect(wayBack(act, { ...frame, id: 'f2', mark: 'out' })).toBeNull();
  expect(wayBack(null, frame)).toBeNull();
  expect(wayBack(act, null)).toBeNull();
  const loose = { ...frame, shot: null };
  expect(wayBack(actOf(loose, { shot: 'jug' }), { ...loose, shot: 'jug' })).toEqual({ shot: null });
});
