import { expect, test } from 'vitest';
import { movedEdges } from '../testing/made-edges.ts';
import { movementFan } from './movement-fan.ts';

// The truth is the formula that edges are made by: a rise of 0.8 L |cos| beside the lens's, by squares.
test.each([
  [40, 0],
  [60, 25],
  [90, 100],
  [120, 171],
])(
  'a movement of %d px along %d degrees is told by edges that lie up to 25 degrees off it',
  (lengthPx, degrees) => {
    const fan = movementFan(movedEdges(0.7, lengthPx, degrees, degrees + 65, degrees + 115));
    const turned = Math.abs((fan?.directionDegrees ?? Number.NaN) - degrees) % 180;
    expect(Math.min(turned, 180 - turned)).toBeLessThan(3);
    expect(Math.abs((fan?.lengthPx ?? Number.NaN) / lengthPx - 1)).toBeLessThan(0.1);
  },
);

test('soft things among them take nothing from it', () => {
  const moved = movedEdges(0.7, 60, 25, 90, 140);
  const soft = movedEdges(14, 0, 0).slice(0, 10);
  expect(movementFan([...moved, ...soft])?.directionDegrees).toBeCloseTo(25, -1);
});

test('where as many edges are sharp whichever way they lie the picture has not moved', () => {
  const moved = movedEdges(0.7, 60, 25, 90, 140);
  expect(movementFan(moved)).not.toBeNull();
  expect(movementFan([...moved, ...movedEdges(0.7, 0, 0)])).toBeNull();
});

test.each([
  ['sharp edges all around', movedEdges(0.7, 0, 0)],
  ['edges out of focus all around', movedEdges(6, 0, 0)],
  // A table's edge, sharp, and the soft shadow of what stands on it.
  [
    'sharp edges one way and soft ones the other',
    [...movedEdges(0.7, 0, 0, 88, 92), ...movedEdges(16, 0, 0, 0, 20)],
  ],
  ['edges of one direction', movedEdges(0.7, 60, 0, 88, 92)],
  ['few edges', movedEdges(0.7, 60, 0, 65, 115).filter((_, at) => at % 4 === 0)],
  // Two along it and eleven aslant, each as wide as the movement leaves it: so few may be so by chance.
  [
    'eleven edges that fit',
    movedEdges(0.7, 60, 0, 65, 115)
      .filter((_, at) => at % 2 === 0)
      .slice(0, 13),
  ],
  ['no edges', []],
])('%s are no movement', (_, edges) => {
  expect(movementFan(edges)).toBeNull();
});
