import { expect, test } from 'vitest';
import { defaultLook, lookSchema, unknownProfile } from '../../look/index.ts';
import { lookLabels } from '../../words/index.ts';
import type { SceneState } from './stage/use-scene.ts';
import { type Seen, truthOf } from './truth.ts';

const size = { widthPx: 1, heightPx: 1 };
const sceneOf = (of: string, light: 'raw' | 'raster' = 'raw'): SceneState => ({
  ...{ state: 'here', of, facts: { profile: unknownProfile, light, full: size } },
  scene: { ...size, halves: new Uint16Array(3), leftPx: 0, topPx: 0, whole: size, notes: {} },
});
const seen: Seen = {
  ...{ frame: 'f1', scene: sceneOf('f1'), beyond: [], isLocal: false, isAtRest: true, tried: 'none' },
  ...{
    before: { base: null, look: null, isRecut: false, tried: 'none' },
    isCompared: false,
    isCropping: false,
  },
};

test('a picture of another frame than the one named is never called as delivered', () => {
  expect(truthOf(seen)).toBe(lookLabels.asDelivered);
  expect(truthOf({ ...seen, frame: 'f2' })).toBe(lookLabels.earlierStill);
  expect(truthOf({ ...seen, frame: 'f2', isLocal: true, tried: 'here' })).toBe(lookLabels.earlierStill);
  expect(truthOf({ ...seen, frame: 'f2', scene: sceneOf('f1', 'raster') })).toBe(lookLabels.earlierStill);
});

test('while the crop is set the whole frame is shown, which is not what is delivered', () => {
  expect(truthOf({ ...seen, isCropping: true })).toBe(lookLabels.cropping);
  expect(truthOf({ ...seen, isCropping: true, isLocal: true })).toBe(lookLabels.cropping);
});

test('what is missing on the canvas is named until the station has rendered it', () => {
  const grainy: Seen = { ...seen, isLocal: true, beyond: ['grain'] };
  expect(truthOf(grainy)).toBe('Delivery will differ: grain');
  // That it is on its way, the slip on the picture says.
  expect(truthOf({ ...grainy, tried: 'rendering' })).toBe('Delivery will differ: grain');
  expect(truthOf({ ...grainy, tried: 'called-off' })).toMatch(/grain\. .*called off/);
  expect(truthOf({ ...grainy, tried: 'here' })).toBe(lookLabels.asRendered);
  expect(truthOf({ ...seen, scene: sceneOf('f1', 'raster') })).toBe(lookLabels.raster);
});

test('left of the edge is told by name, and what it is not shown with is told too', () => {
  const document = lookSchema.parse({ ...defaultLook, grain: { density: 0.2 } });
  const base = { id: 'l1', name: 'Grain only', version: 1, document };
  const before = { base, look: document, isRecut: true, tried: 'rendering' } as const;
  expect(truthOf({ ...seen, before })).toBe(
    'As delivered. Before: Grain only, version 1, cut and turned as now, still without grain',
  );
  expect(truthOf({ ...seen, before: { ...before, isRecut: false, tried: 'here' } })).toBe(
    'As delivered. Before: Grain only, version 1',
  );
  // Over the picture of another frame nothing is said of either side.
  expect(truthOf({ ...seen, frame: 'f2', before })).toBe(lookLabels.earlierStill);
  expect(truthOf({ ...seen, before, isCompared: true })).toBe(lookLabels.comparedTruth);
});
