import { expect, test } from 'vitest';
import { halfPlaneOf } from '../half-plane.ts';
import { movedEdges as edgesOf } from '../testing/made-edges.ts';
import { madeMovement } from '../testing/made-moved.ts';
import { blurKind, readBlur } from './blur-kind.ts';
import { movementAt } from './movement-at.ts';
import { readSharp } from './read-sharp.ts';

test.each([
  [8, 30],
  [4, 100],
  [12, 170],
])('a movement of %d px along %d degrees is told by its edges', (length, degrees) => {
  const blur = blurKind(edgesOf(0.6, length, degrees));
  expect(blur.kind).toBe('movement');
  expect(Math.abs((blur.lengthPx ?? 0) / length - 1)).toBeLessThan(0.1);
  expect(Math.abs((blur.directionDegrees ?? 0) - degrees)).toBeLessThan(6);
});

// Truth from the formula of a box and a Gaussian (`made-moved.ts`), read as any picture is.
test.each([4, 8, 16, 24].flatMap((length) => [0, 30, 90].map((degrees) => [length, degrees] as const)))(
  'edges that moved by %d px along %d degrees behind a lens of 0.7 px are told so within 6 %, through noise',
  (length, degrees) => {
    const grid = madeMovement({ sigmaPx: 0.7, lengthPx: length, degrees, noise: 100 });
    const spot = { left: 0, top: 0, right: 1, bottom: 1, teller: 'given' } as const;
    const { blur } = readSharp(grid, halfPlaneOf(grid), { source: 'raw', spot });
    expect(blur.kind).toBe('movement');
    expect(Math.abs((blur.lengthPx ?? 0) / length - 1)).toBeLessThan(0.06);
    const turned = Math.abs((blur.directionDegrees ?? 0) - degrees) % 180;
    expect(Math.min(turned, 180 - turned)).toBeLessThan(3);
  },
);

test('blur that does not depend on direction is focus', () => {
  expect(blurKind(edgesOf(3, 0, 0)).kind).toBe('focus');
});

test('where edges across it are sharp nothing has moved: their surroundings are out of focus', () => {
  const moved = edgesOf(0.6, 9, 40);
  expect(blurKind(moved).kind).toBe('movement');
  const still = moved.map((edge, k) => (k % 10 === 4 ? { ...edge, sigmaPx: 0.6, widthPx: 1.54 } : edge));
  expect(blurKind(still).kind).not.toBe('movement');
});

test('a wave that is large but not proved is unknown, never "the same every way"', () => {
  // As in a picture that moved 13 px sideways: few edges, of six sectors, those across it ten times as wide.
  const few = edgesOf(0.33, 13, 0).filter((_, k) => [0, 3, 11, 14, 15, 26].includes(k));
  expect(blurKind(few).kind).not.toBe('focus');
});

test('what the whole picture shows counts at a spot whose own edges bear it out', () => {
  const { blur: movement, stillSquare: still } = readBlur(edgesOf(0.6, 8, 170));
  expect(movement.kind).toBe('movement');
  expect(movementAt(edgesOf(0.6, 8, 170, 160, 180), movement, still)).toBe('shown');
  // The hem of a cloth: all edges lie along the movement.
  expect(movementAt(edgesOf(0.55, 0, 0, 76, 90), movement, still)).toBe('silent');
  expect(movementAt(edgesOf(0.55, 0, 0, 160, 180), movement, still)).toBe('denied');
  expect(movementAt([], movement, still)).toBe('silent');
});

test('edges aslant of a movement deny it where they are far sharper than it would leave them', () => {
  const { blur: movement, stillSquare: still } = readBlur(edgesOf(0.6, 8, 170));
  // Of a lens of 0.6 px alone: (2.5631 * 0.6)² = 2.4.
  expect(Math.sqrt(still)).toBeGreaterThan(1.3);
  expect(Math.sqrt(still)).toBeLessThan(1.8);
  // 70 degrees from it: 0.8 * 8 * cos 70° = 2.2 px of rise are the movement's, and with the lens 2.7.
  expect(movementAt(edgesOf(0.5, 0, 0, 98, 102), movement, still)).toBe('denied');
  expect(movementAt(edgesOf(0.6, 8, 170, 98, 102), movement, still)).toBe('silent');
  // As good as along it: they would be sharp in any case.
  expect(movementAt(edgesOf(0.5, 0, 0, 84, 90), movement, still)).toBe('silent');
});

test('of a long movement edges aslant show it that are as wide as their angle says', () => {
  const movement = { kind: 'movement', directionDegrees: 170, lengthPx: 80 } as const;
  const still = (2.5631 * 0.6) ** 2;
  expect(movementAt(edgesOf(0.6, 80, 170, 85, 105), movement, still)).toBe('shown');
  // Half as wide as that, and in focus: neither way proved.
  expect(movementAt(edgesOf(0.6, 50, 170, 85, 105), movement, still)).toBe('silent');
});

test('edges of one direction tell nothing of the others', () => {
  expect(blurKind(edgesOf(3, 0, 0, 80, 100)).kind).toBe('unknown');
  expect(blurKind([]).kind).toBe('unknown');
});
