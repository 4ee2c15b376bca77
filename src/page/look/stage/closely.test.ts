import { expect, test } from 'vitest';
import { lookSchema } from '../../../look/index.ts';
import { closeView, joined } from './closely.ts';
import { sceneShare } from './scene-point.ts';

const full = { widthPx: 6000, heightPx: 4000 };
const plain = lookSchema.parse({ version: 2, title: 'test' }).geometry;
const room = { widthPx: 1000, heightPx: 600 };

test('a canvas shows as many pixels as it has, and the tiles they lie on are asked for', () => {
  const view = closeView(plain, full, room, { x: 0.5, y: 0.5 });
  expect([view.widthPx, view.heightPx]).toEqual([1000, 600]);
  // 2500 to 3500 across and 1700 to 2300 down: tiles 4 to 6 and 3 to 4, by hand.
  expect(view.tiles.map(({ column, row }) => `${column},${row}`)).toEqual([
    '4,3',
    '5,3',
    '6,3',
    '4,4',
    '5,4',
    '6,4',
  ]);
  expect(view.part).toEqual({ leftPx: 2048, topPx: 1536, widthPx: 1536, heightPx: 1024 });
  const corner = sceneShare(view.placed, 0, 0);
  expect(corner.x * 1536).toBeCloseTo(2500 - 2048, 6);
  expect(corner.y * 1024).toBeCloseTo(1700 - 1536, 6);
});

test('beyond its ends the view is held inside the picture, and the last tiles are as small as they are', () => {
  const view = closeView(plain, full, room, { x: 1.4, y: 1 });
  expect(view.centre).toEqual({ x: 5500 / 6000, y: 3700 / 4000 });
  expect(view.part.leftPx + view.part.widthPx).toBe(6000);
  expect(view.part.topPx + view.part.heightPx).toBe(4000);
  const small = closeView(plain, { widthPx: 640, heightPx: 480 }, room, { x: 0, y: 0 });
  expect([small.widthPx, small.heightPx, small.tiles.length]).toEqual([640, 480, 2]);
});

test('turned over, the right end is seen at the left', () => {
  const view = closeView({ ...plain, flip: 'left-right' }, full, room, { x: 0, y: 0 });
  expect(view.part.leftPx + view.part.widthPx).toBe(6000);
  expect(sceneShare(view.placed, 0, 0).x).toBeCloseTo(1, 9);
});

test('tiles are put together where they say they lie', () => {
  const tile = (leftPx: number, topPx: number, value: number) => ({
    widthPx: 2,
    heightPx: 1,
    leftPx,
    topPx,
    halves: new Uint16Array(6).fill(value),
    whole: { widthPx: 4, heightPx: 2 },
    notes: {},
  });
  const part = { leftPx: 0, topPx: 0, widthPx: 4, heightPx: 2 };
  const { halves } = joined(part, [tile(2, 0, 7), tile(0, 1, 9)]);
  expect([...halves]).toEqual([
    ...Array(6).fill(0),
    ...Array(6).fill(7),
    ...Array(6).fill(9),
    ...Array(6).fill(0),
  ]);
});
