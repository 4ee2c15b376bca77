import { expect, test } from 'vitest';
import type { PlaceShift, Verdict } from '../../facts/index.ts';
import { sentence } from '../../words/index.ts';
import { type Disc, type MadeView, madeScene, strewnDiscs } from '../testing/made-scene.ts';
import { judgeInPlace } from './judge-in-place.ts';
import { type PlacePlane, placeOfHalfPlane } from './place-plane.ts';
import { registerPlace } from './register.ts';

const full = { widthPx: 1600, heightPx: 1000 };
const discs = strewnDiscs(full.widthPx, full.heightPx, 200, 5);
/** The ware: what lies within this of a point beside the middle. */
const isWare = ({ x, y }: Disc): boolean => Math.hypot(x - 120, y + 60) < 240;

const view = (wareRight: number, wareDown: number, how: MadeView = {}): PlacePlane => {
  const scene = discs.map((disc) =>
    isWare(disc) ? { ...disc, x: disc.x + wareRight, y: disc.y + wareDown } : disc,
  );
  return placeOfHalfPlane(madeScene(scene, full.widthPx, full.heightPx, how), full, 1);
};
const laid = (frame: PlacePlane): PlaceShift => {
  const found = registerPlace(frame, view(0, 0), null);
  if ('unknown' in found) throw new Error(`not told: ${found.unknown}`);
  return found;
};
const judged = (shift: PlaceShift, shiftPx = { good: 5, bad: 15 }): Verdict =>
  judgeInPlace({
    reading: { source: 'raw', shift, subject: { unknown: 'not-plain' } },
    against: 'reference',
    tolerances: { shiftPx },
    mmPerPx: null,
    previous: null,
  });

// The truth is exact by construction: the discs themselves are moved.
test.each([
  [8, 0, 0],
  [-14, 9, 0.01],
  [40, -25, 0],
])('a ware that was moved by %d, %d px before a still ground is told, noise %d', (x, y, noise) => {
  const { part, ...whole } = laid(view(x, y, { noise, seed: 4 }));
  expect(Math.hypot(whole.rightPx, whole.downPx)).toBeLessThan(0.5);
  expect(Math.hypot((part?.rightPx ?? 0) - x, (part?.downPx ?? 0) - y)).toBeLessThan(0.6);
  // Its middle lies in the box that is told.
  const [px, py] = [0.5 + 120 / full.widthPx, 0.5 - 60 / full.heightPx];
  expect(part !== null && part.box.left < px && px < part.box.right).toBe(true);
  expect(part !== null && part.box.top < py && py < part.box.bottom).toBe(true);
  expect(judged({ ...whole, part }).judgement).not.toBe('good');
});

test('nothing moved: there is no part, through exposure, noise and a moved camera', () => {
  const moved = { re: 1, im: 0.002, tx: 13.3, ty: -6.1 };
  for (const how of [{ noise: 0.02 }, { ev: 1, noise: 0.01 }, { ev: -2, noise: 0.01 }, { moved }]) {
    const { part, lost } = laid(view(0, 0, how));
    expect(part).toBeNull();
    expect(lost).toBeNull();
  }
});

test('a part is said as one, with the limit; within it, it is in place and the figure is its own', () => {
  const shift = laid(view(8, 0));
  const off = judged(shift);
  expect(off).toMatchObject({ judgement: 'doubt', findings: [{ code: 'place.part-moved' }] });
  expect(sentence(off.findings[0])).toMatch(
    /^Not in place: a part of the picture lies (8|7\.\d|8\.\d) px to the right while the rest holds still, up to 5 px is in place\.$/,
  );
  const near = judged(shift, { good: 12, bad: 20 });
  expect(near.judgement).toBe('good');
  expect(near.figure?.value).toBeGreaterThan(7);
});

test('a ware that is gone, or that something stands before, is not found again: a doubt, though the rest lies in place', () => {
  const place = (scene: readonly Disc[]): PlacePlane =>
    placeOfHalfPlane(madeScene(scene, full.widthPx, full.heightPx, { noise: 0.01 }), full, 1);
  const gone = place(discs.filter((disc) => !isWare(disc)));
  const cover = strewnDiscs(full.widthPx, full.heightPx, 200, 77).filter(isWare);
  const covered = place([...discs.filter((disc) => !isWare(disc)), ...cover]);
  for (const frame of [gone, covered]) {
    const shift = laid(frame);
    expect(Math.hypot(shift.rightPx, shift.downPx)).toBeLessThan(0.5);
    const { lost } = shift;
    const [px, py] = [0.5 + 120 / full.widthPx, 0.5 - 60 / full.heightPx];
    expect(lost !== null && lost.left < px && px < lost.right && lost.top < py && py < lost.bottom).toBe(
      true,
    );
    const { judgement, findings } = judged(shift);
    expect(judgement).toBe('doubt');
    expect(findings.map(({ code }) => code)).toContain('place.part-lost');
    expect(sentence(findings[0])).toMatch(
      /^A part of the reference is not found again, about \d+ % from the left/,
    );
  }
});
