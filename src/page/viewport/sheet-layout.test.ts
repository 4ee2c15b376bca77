import { expect, test } from 'vitest';
import {
  layoutSheet,
  type SheetCounts,
  type SheetMeasures,
  type SheetSpot,
  sheetMeasures,
  spotsSeen,
} from './sheet-layout.ts';

/** Round figures, so that the expected ones can be reckoned in the head. */
const measures: SheetMeasures = {
  columns: 5,
  cellWidth: 100,
  cellHeight: 90,
  gap: 10,
  headHeight: 40,
  noteLineHeight: 15,
  edge: 20,
  between: 30,
  heroSpan: 2,
};

function every(counts: SheetCounts): SheetSpot[] {
  const { places } = layoutSheet([counts], measures);
  const [place] = places;
  return place === undefined ? [] : spotsSeen(counts, place, measures, -1, place.height + 1);
}

test('heroes are two by two, selects fill what they leave beside them, all frames lie below', () => {
  const spots = every({ heroes: 1, selects: 7, frames: 6, noteLetters: 0 });
  const at = (part: SheetSpot['part'], index: number): number[] =>
    spots
      .filter((spot) => spot.part === part && spot.index === index)
      .flatMap(({ left, top }) => [left, top]);
  expect(spots.find(({ part }) => part === 'hero')).toMatchObject({
    left: 20,
    top: 40,
    width: 210,
    height: 190,
  });
  // Three columns beside the hero, two rows: the seventh begins a row below.
  expect([at('select', 0), at('select', 3), at('select', 6)]).toEqual([
    [240, 40],
    [240, 140],
    [20, 240],
  ]);
  // Three rows of 90 with two gaps end at 330; 30 more is the surround's width.
  expect([at('frame', 0), at('frame', 5)]).toEqual([
    [20, 360],
    [20, 460],
  ]);
});

test('no two spots of a group touch, and all lie on the paper, whatever was chosen', () => {
  for (let heroes = 0; heroes <= 5; heroes += 1) {
    for (let selects = 0; selects <= 9; selects += 1) {
      const counts = { heroes, selects, frames: 11, noteLetters: 0 };
      const height = layoutSheet([counts], measures).places[0]?.height ?? 0;
      const spots = every(counts);
      expect(spots).toHaveLength(heroes + selects + 11);
      for (const [index, one] of spots.entries()) {
        expect(one.left).toBeGreaterThanOrEqual(20);
        expect(one.left + one.width).toBeLessThanOrEqual(20 + 5 * 100 + 4 * 10);
        expect(one.top + one.height).toBeLessThanOrEqual(height - 20);
        for (const other of spots.slice(index + 1)) expect(touch(one, other)).toBe(false);
      }
    }
  }
});

function touch(one: SheetSpot, other: SheetSpot): boolean {
  const apart =
    one.left + one.width <= other.left ||
    other.left + other.width <= one.left ||
    one.top + one.height <= other.top ||
    other.top + other.height <= one.top;
  return !apart;
}

test('of twenty thousand frames only those of the stretch are asked for', () => {
  const counts = { heroes: 1, selects: 0, frames: 20_000, noteLetters: 0 };
  const [place] = layoutSheet([counts], measures).places;
  if (place === undefined) throw new Error('one group has one place');
  const from = place.framesTop + 1000 * 100;
  const seen = spotsSeen(counts, place, measures, from, from + 300);
  expect(seen.map(({ index }) => index)).toEqual(Array.from({ length: 15 }, (_, index) => 5000 + index));
});

test('groups stand below each other with the surround between, and an empty one keeps its name', () => {
  const { places, height } = layoutSheet(
    [
      { heroes: 0, selects: 0, frames: 1, noteLetters: 0 },
      { heroes: 0, selects: 0, frames: 0, noteLetters: 0 },
    ],
    measures,
  );
  expect(places.map(({ top, height: own }) => [top, own])).toEqual([
    [0, 40 + 90 + 20],
    [180, 40 + 20],
  ]);
  expect(height).toBe(240);
});

test('what is said of a group lies between its name and its frames', () => {
  const counts = { heroes: 1, selects: 0, frames: 1, noteLetters: 100 };
  const [place] = layoutSheet([counts], measures).places;
  // 100 letters of 7 px take two lines of the 540 px between the edges; half an edge more keeps the frames off.
  expect(place?.chosenTop).toBe(40 + 2 * 15 + 10);
  expect(every(counts).map(({ top }) => top)).toEqual([80, 80 + 190 + 30]);
});

test.each([390, 700, 1240, 1880])('at %d px the columns fill the paper between its edges', (width) => {
  const { columns, cellWidth, gap, edge } = sheetMeasures(width, 148, 26);
  expect(columns).toBeGreaterThanOrEqual(2);
  expect(2 * edge + columns * cellWidth + (columns - 1) * gap).toBeCloseTo(width, 6);
});
