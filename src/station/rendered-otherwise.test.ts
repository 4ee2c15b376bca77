import { expect, test } from 'vitest';
import type { CameraProfile, CountedTarget } from '../facts/index.ts';
import { targetToRenderBy } from '../job/index.ts';
import { defaultLook, lookHash } from '../look/index.ts';
import { frameLook, plainLook } from './looks/frame-look.ts';
import { isRenderedOtherwise } from './rendered-otherwise.ts';
import { balancedOn } from './target-balance.ts';

const summary = { mean: 1, percentile90: 2, max: 3, maxPatch: 1, lightness: 1, chroma: 1 };
const profile: CameraProfile = {
  toXyz: [0.9, 0.25, 0.12, 0.35, 0.95, -0.08, 0.02, -0.12, 1.9],
  multipliers: [2, 1, 1.5],
  fit: summary,
  leaveOneOut: summary,
  patches: 24,
};
const target = (frame: string, fromMs: number, rest: Partial<CountedTarget> = {}): CountedTarget => ({
  frame,
  camera: 'cam1',
  fromMs,
  profile,
  ...rest,
});

test('the newest target of the camera by then renders a frame, the target’s own frame too', () => {
  const targets = [target('a', 10), target('other', 15, { camera: 'cam2' }), target('b', 20)];
  const by = (momentMs: number) => targetToRenderBy({ targets }, { camera: 'cam1', momentMs })?.frame;
  expect([9, 10, 19, 20, 99].map(by)).toEqual([undefined, 'a', 'a', 'b', 'b']);
});

test('a target of a finished picture, or without a profile, renders nothing', () => {
  expect(balancedOn(target('a', 1, { profile: null }))).toBeNull();
  expect(balancedOn(target('a', 1, { profile: { ...profile, multipliers: null } }))).toBeNull();
  expect(balancedOn(null)).toBeNull();
});

test('a raw is rendered otherwise where another target counts now than it was rendered by, or none', () => {
  const [a, b] = [balancedOn(target('a', 1)), balancedOn(target('b', 2))];
  const picture = { state: 'rendered', width: 3, height: 2, source: 'raw', look: plainLook.hash, version: 1 };
  const by = (on: typeof a) => ({
    picture: { ...picture, target: on === null ? null : { frame: on.frame, name: 'N', profile: on.hash } },
  });
  const inForce = (balance: typeof a) => ({ balance, look: plainLook });
  expect(isRenderedOtherwise(by(a), inForce(a))).toBe(false);
  expect(isRenderedOtherwise(by(a), inForce(b))).toBe(true);
  expect(isRenderedOtherwise(by(a), inForce(null))).toBe(true);
  // Kept by a station that knew of no targets.
  expect(isRenderedOtherwise({ picture }, inForce(null))).toBe(false);
  expect(isRenderedOtherwise({ picture }, inForce(a))).toBe(true);
  expect(isRenderedOtherwise({ picture: { ...picture, source: 'raster' } }, inForce(a))).toBe(false);
  expect(isRenderedOtherwise({ picture: null }, inForce(a))).toBe(false);
});

test('a raw is rendered otherwise where another look is in force than it was rendered with; a finished picture takes none', () => {
  const document = { ...defaultLook, exposureEv: 1 };
  const kept = {
    ...{ id: 'look1', name: 'Bright', version: 1, hash: lookHash(document), document },
    ...{ savedMs: 0, savedBy: 'operator', laidAside: true },
  };
  const look = frameLook(new Map([['look1', kept]]), { id: 'look1', wish: null, from: 'shot' });
  const shown = { state: 'rendered', width: 3, height: 2, source: 'raw', look: plainLook.hash, version: 1 };
  const isOtherwise = (picture: typeof shown) => isRenderedOtherwise({ picture }, { balance: null, look });
  expect(isOtherwise(shown)).toBe(true);
  expect(isOtherwise({ ...shown, look: kept.hash })).toBe(false);
  expect(isOtherwise({ ...shown, source: 'raster', look: '' })).toBe(false);
});
