import { expect, test } from 'vitest';
import type { RailPlace } from '../viewport/index.ts';
import { laneLeft } from './rail-items.ts';
import { laneAxisLeft, leaderPath } from './rail-leader.ts';
import { measuresFor } from './rail-measures.ts';

const wide = measuresFor({ narrow: false, middling: false }, 1);
const crowded = measuresFor({ narrow: false, middling: true }, 4);
const place = (lane: number, momentCssPx: number, topCssPx: number, untilCssPx = momentCssPx): RailPlace => ({
  id: 'f',
  lane,
  momentMs: 0,
  momentCssPx,
  untilCssPx,
  topCssPx,
  heightCssPx: wide.frame.pictureCssPx + wide.frame.nameCssPx,
});

/** Every corner of a path of M, L, H and V. */
function corners(path: string): [x: number, y: number][] {
  const found: [number, number][] = [];
  let [x, y] = [0, 0];
  for (const [, letter, figures] of path.matchAll(/([MLHV])([^MLHV]*)/g)) {
    const [one = 0, other = 0] = (figures ?? '').trim().split(' ').map(Number);
    if (letter === 'H') x = one;
    else if (letter === 'V') y = one;
    else [x, y] = [one, other];
    found.push([x, y]);
  }
  return found;
}

test('a picture that reaches past its moment has a level leader', () => {
  for (const top of [120, 160, 190])
    expect(new Set(corners(leaderPath(place(0, 200, top), wide)).map(([, y]) => y))).toEqual(new Set([200]));
});

test('one that had to give way is met at its nearer end, still on the picture', () => {
  const met = (top: number) => corners(leaderPath(place(0, 200, top), wide)).at(-1)?.[1];
  expect(met(300)).toBe(310);
  expect(met(20)).toBe(20 + wide.frame.pictureCssPx - 10);
});

test.each([
  ['wide', wide],
  ['crowded', crowded],
])('%s: no leader leaves the room between its own lane and the one before', (_, measures) => {
  for (const lane of [0, 1, 2, 3]) {
    const before = lane === 0 ? measures.insetCssPx : laneLeft(lane - 1, measures) + measures.laneCssPx;
    for (const until of [200, 240]) {
      for (const [x] of corners(leaderPath(place(lane, 200, 400, until), measures))) {
        expect(x).toBeGreaterThan(before);
        expect(x).toBeLessThanOrEqual(laneLeft(lane, measures));
      }
    }
    expect(laneAxisLeft(lane, measures)).toBeGreaterThan(before);
  }
});
