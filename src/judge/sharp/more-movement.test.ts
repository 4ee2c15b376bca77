import { expect, test } from 'vitest';
import { halfPlaneOf } from '../half-plane.ts';
import { gravityOf } from '../limits.ts';
import { madeMovement } from '../testing/made-moved.ts';
import { judgeSharp } from './judge-sharp.ts';
import { readSharp } from './read-sharp.ts';

// Truth from the formula of a box and a Gaussian (`made-moved.ts`). Nobody says where it is to be sharp, so that edges
// along the movement, which stay sharp however far it went, could speak for all.
test.each([0, 13, 25, 60])(
  'more movement along %d degrees is never judged milder, and is said from where it is seen',
  { timeout: 240_000 },
  (degrees) => {
    const judged = [12, 24, 40, 60, 90].map((lengthPx) => {
      const grid = madeMovement({ sigmaPx: 0.7, lengthPx, degrees, noise: 100 });
      const reading = readSharp(grid, halfPlaneOf(grid), { source: 'raw', spot: null });
      return judgeSharp({ reading, tolerances: {}, reference: null, previous: null });
    });
    const gravities = judged.map(({ judgement }) => gravityOf(judgement));
    expect(gravities).toEqual([...gravities].sort((a, b) => b - a));
    expect(judged.map(({ judgement }) => judgement)).toEqual(['bad', 'bad', 'bad', 'bad', 'bad']);
    for (const { findings } of judged) expect(findings[0]?.code).toBe('sharp.moved');
  },
);
