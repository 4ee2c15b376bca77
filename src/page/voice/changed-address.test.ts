import { expect, test } from 'vitest';
import type { CameraEntry } from '../../contract/index.ts';
import { sampleStation } from '../testing/sample-frame.ts';
import { changedAddress } from './changed-address.ts';

const camera = (name: string, code: string, address: string): CameraEntry => {
  const [sample] = sampleStation().cameras;
  if (sample === undefined) throw new Error('the sample has a camera');
  return { ...sample, name, trouble: { code, args: { camera: name, address, local: '192.0.2.9' } } };
};

test('cameras that were given an address which is gone are told in one sentence', () => {
  const changed = 'line-check.address-changed';
  expect(
    changedAddress({ cameras: [camera('cam1', changed, '192.0.2.1'), camera('cam2', changed, '192.0.2.1')] }),
  ).toEqual({
    code: changed,
    args: { merged: 2, camera: 'cam1 and cam2', address: '192.0.2.1', local: '192.0.2.9' },
  });
});

test('other troubles, addresses that are kept back, and no station at all make no sound', () => {
  expect(changedAddress(null)).toBeNull();
  expect(changedAddress({ cameras: [camera('cam1', 'line.camera-silent', '192.0.2.1')] })).toBeNull();
  expect(changedAddress({ cameras: [camera('cam1', 'line-check.address-changed', '')] })).toBeNull();
});
