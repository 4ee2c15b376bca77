import { expect, test } from 'vitest';
import { shot, shotPatch } from './shots.ts';

const told = {
  id: 'mug',
  name: 'Mug',
  description: '',
  camera: null,
  look: null,
  lookId: null,
  scale: null,
  layout: 'sketch-7.jpg',
  reference: 'see page 4',
  heroes: 1,
  selects: 0,
  order: [],
  agreement: false,
  requires: [],
  mutes: [],
  tolerances: {},
  baselines: [],
};

test('a shot of an earlier journal is told whatever stands in it; nobody may say such a thing now', () => {
  expect(shot.parse(told)).toEqual(told);
  expect(shotPatch.safeParse({ layout: told.layout }).success).toBe(false);
  expect(shotPatch.safeParse({ reference: told.reference }).success).toBe(false);
});
