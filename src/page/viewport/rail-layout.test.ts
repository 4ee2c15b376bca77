import fc from 'fast-check';
import { expect, test } from 'vitest';
import { leastMove } from './least-move.ts';
import { layoutRail, type RailItem } from './rail-layout.ts';

const at = (seconds: number, lane = 0): RailItem => ({
  id: `${lane}-${seconds}`,
  momentMs: seconds * 1000,
  lane,
  heightCssPx: 100,
});

test('three boxes that wish for one place are spread evenly about it', () => {
  // Three boxes of 10 with 2 between: centres 12 apart, the middle one stays.
  const wish = { wished: 50, size: 10 };
  expect(leastMove([wish, wish, wish], 2)).toEqual([38, 50, 62]);
});

test('boxes that have room stay where they wish to be', () => {
  expect(
    leastMove(
      [
        { wished: 0, size: 10 },
        { wished: 40, size: 10 },
      ],
      2,
    ),
  ).toEqual([0, 40]);
});

test('frames at an even rhythm lie on their moments, at one scale', () => {
  const rail = layoutRail([0, 20, 40, 60].map((second) => at(second)));
  for (const place of rail.places) expect(place.topCssPx + 50).toBeCloseTo(place.momentCssPx, 0);
  const [first, second] = rail.places;
  const apart = (second?.momentCssPx ?? 0) - (first?.momentCssPx ?? 0);
  expect(apart).toBeCloseTo(20 * rail.cssPxPerSecond, 9);
});

test('a pause too long to draw is cut and says its true length', () => {
  const rail = layoutRail([at(0), at(15), at(30), at(30 + 720)]);
  expect(rail.pauses).toHaveLength(1);
  expect(rail.pauses[0]?.lengthMs).toBe(720_000);
  expect(rail.heightCssPx).toBeLessThan(1000);
});

test('two cameras at one moment share a height, each in its own lane', () => {
  const [one, other] = layoutRail([at(10, 0), at(10, 1)]).places;
  expect(one?.topCssPx).toBe(other?.topCssPx);
});

test('whatever the moments, no two pictures of a lane overlap, none leaves the rail, and the scale is true', () => {
  const moments = fc.array(fc.tuple(fc.integer({ min: 0, max: 40_000 }), fc.integer({ min: 0, max: 2 })), {
    maxLength: 60,
  });
  fc.assert(
    fc.property(moments, (list) => {
      const items = list.map(([second, lane], index) => ({ ...at(second, lane), id: String(index) }));
      const rail = layoutRail(items);
      expect(rail.places).toHaveLength(items.length);
      for (const lane of [0, 1, 2]) {
        const inLane = rail.places.filter((place) => place.lane === lane);
        inLane.forEach((place, index) => {
          const before = inLane[index - 1];
          if (before !== undefined) {
            expect(place.topCssPx).toBeGreaterThanOrEqual(before.topCssPx + before.heightCssPx);
          }
          expect(place.topCssPx).toBeGreaterThanOrEqual(0);
          expect(place.topCssPx + place.heightCssPx).toBeLessThanOrEqual(rail.heightCssPx);
        });
      }
      for (const stretch of rail.stretches) {
        const expected = ((stretch.toMs - stretch.fromMs) / 1000) * rail.cssPxPerSecond;
        expect(stretch.toCssPx - stretch.fromCssPx).toBeCloseTo(expected, 6);
      }
      for (const pause of rail.pauses) expect(pause.toCssPx).toBeGreaterThan(pause.fromCssPx);
    }),
  );
});
