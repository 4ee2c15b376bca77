import { expect, test } from 'vitest';
import { type Look, lookSchema } from '../../../look/index.ts';
import { placedSize, placeScene } from './place-scene.ts';
import { lightAbout, neutralOf, sceneShare } from './scene-point.ts';

const full = { widthPx: 6000, heightPx: 4000 };
const scene = { widthPx: 1500, heightPx: 1000 };

function geometry(parts: object): Look['geometry'] {
  return lookSchema.parse({ version: 2, title: 'test', geometry: parts }).geometry;
}

test('without geometry the canvas is the scene, place for place', () => {
  const placed = placeScene(geometry({}), full, scene);
  expect([placed.widthPx, placed.heightPx]).toEqual([1500, 1000]);
  for (const [at, value] of placed.toScene.entries()) expect(value).toBeCloseTo(at % 4 === 0 ? 1 : 0, 12);
});

test('a square crop at the right end shows the right two thirds, as fine as the scene is', () => {
  const crop = { across: 1, down: 1, size: 1, centreX: 1, centreY: 0.5 };
  const placed = placeScene(geometry({ crop }), full, scene);
  expect(placedSize(geometry({ crop }), full)).toEqual({ widthPx: 4000, heightPx: 4000 });
  expect([placed.widthPx, placed.heightPx]).toEqual([1000, 1000]);
  // By hand: 4000 of 6000 pixels, from 2000 on.
  expect(sceneShare(placed, 0, 0).x).toBeCloseTo(1 / 3, 9);
  expect(sceneShare(placed, 1, 1).x).toBeCloseTo(1, 9);
});

test('turned over, left and right change places', () => {
  const placed = placeScene(geometry({ flip: 'left-right' }), full, scene);
  expect(sceneShare(placed, 0.1, 0.3).x).toBeCloseTo(0.9, 9);
  expect(sceneShare(placed, 0.1, 0.3).y).toBeCloseTo(0.3, 9);
});

test('a neutral is the mean light about a place; too dark or too bright tells no colour', () => {
  // Half floats: 1 = 0x3c00, 0.5 = 0x3800 (IEEE 754).
  const halves = Uint16Array.from({ length: 4 * 4 * 3 }, (_, at) => (at % 3 === 2 ? 0x3800 : 0x3c00));
  const small = { widthPx: 4, heightPx: 4, halves };
  expect(lightAbout(small, 0.5, 0.5, 1)).toEqual([1, 1, 0.5]);
  expect(lightAbout(small, 0, 0, 1)).toEqual([1, 1, 0.5]);
  expect(neutralOf([1, 1, 0.5])).toEqual([1, 1, 0.5]);
  expect(neutralOf([0.001, 0.3, 0.3])).toBeNull();
  expect(neutralOf([17, 3, 3])).toBeNull();
});
