import { expect, test } from 'vitest';
import type { PlaceShift, ShareBox, Verdict } from '../../facts/index.ts';
import { sentence } from '../../words/index.ts';
import { type Disc, type MadeView, madeScene, strewnDiscs } from '../testing/made-scene.ts';
import { judgeInPlace } from './judge-in-place.ts';
import { type PlacePlane, placeOfHalfPlane } from './place-plane.ts';
import { registerPlace } from './register.ts';

const full = { widthPx: 1600, heightPx: 1000 };
const ball = { x: 180, y: -90 };
/** What has edges keeps away from the ball. */
const around = strewnDiscs(full.widthPx, full.heightPx, 160, 5).filter(
  ({ x, y }) => Math.hypot(x - ball.x, y - ball.y) > 300,
);
/** A ball without an edge: its rim is as wide as itself. `through`: of the ground's light. */
const smooth = (through: number, right = 0): Disc => ({
  x: ball.x + right,
  y: ball.y,
  radius: 110,
  rim: 70,
  through,
});

/** Light that falls off unevenly, stops at a place from -1 to 1 each way. */
type Drift = (x: number, y: number) => number;

function view(scene: readonly Disc[], how: MadeView = {}, drift: Drift = () => 0): PlacePlane {
  const light = madeScene(scene, full.widthPx, full.heightPx, { noise: 0.01, ...how });
  const { widthPx, heightPx } = light;
  const data = light.data.map((value, at) => {
    const x = ((at % widthPx) / widthPx) * 2 - 1;
    const y = (Math.floor(at / widthPx) / heightPx) * 2 - 1;
    return Math.min(1, value * 2 ** drift(x, y));
  });
  return placeOfHalfPlane({ data, widthPx, heightPx }, full, 1);
}

const laid = (frame: PlacePlane, reference: PlacePlane): PlaceShift => {
  const found = registerPlace(frame, reference, null);
  if ('unknown' in found) throw new Error(`not told: ${found.unknown}`);
  return found;
};
const judged = (shift: PlaceShift, lightSpreadEv = 0): Verdict =>
  judgeInPlace({
    reading: { source: 'raw', shift, subject: { unknown: 'not-plain' } },
    against: 'reference',
    tolerances: {},
    mmPerPx: null,
    lightSpreadEv,
    previous: null,
  });
const holds = (box: ShareBox | null, x: number, y: number): boolean => {
  const [px, py] = [0.5 + x / full.widthPx, 0.5 + y / full.heightPx];
  return box !== null && box.left < px && px < box.right && box.top < py && py < box.bottom;
};

// The truth is exact by construction: the ball is left out, moved or put in.
test.each([
  ['a white ball gone', 1.35, null],
  ['a grey ball gone', 0.7, null],
  ['a white ball moved by 120 px', 1.35, 120],
  ['a grey ball moved by 120 px, the light falling off otherwise', 0.7, 120],
] as const)('%s is told, though nothing in it has an edge', (name, through, right) => {
  const reference = view([...around, smooth(through)]);
  const drift: Drift = name.includes('light') ? (x, y) => 0.3 - 0.2 * x + 0.1 * y * y : () => 0;
  const now = right === null ? around : [...around, smooth(through, right)];
  const shift = laid(view(now, { seed: 9 }, drift), reference);
  expect(Math.hypot(shift.rightPx, shift.downPx)).toBeLessThan(0.5);
  // Where it was, or, moved, on either side of what it left and reached.
  const places = right === null ? [ball.x] : [ball.x - 60, ball.x + right + 60];
  expect(places.some((x) => holds(shift.changed, x, ball.y))).toBe(true);
  const verdict = judged(shift);
  expect(verdict.judgement).toBe('doubt');
  expect(sentence(verdict.findings[0])).toMatch(
    /^The light of a part is not the reference’s, about \d+ % from the left and \d+ % from the top: something there is gone, moved or new\.$/,
  );
  // Where light differs unevenly, such a part is no news.
  expect(judged(shift, 0.2).judgement).toBe('good');
});

test('something smooth that was put in is told; the other way round it is gone', () => {
  const shift = laid(view([...around, smooth(1.35)], { seed: 9 }), view(around));
  expect(holds(shift.changed, ball.x, ball.y)).toBe(true);
});

test('nothing has changed: not by drifting light, exposure, noise, a moved camera, or light that is lost', () => {
  const scene = [...around, smooth(1.35)];
  const reference = view(scene);
  const moved = { re: 1, im: 0.002, tx: 5.3, ty: -4.1 };
  const views = [
    view(scene, { seed: 9 }, (x, y) => 0.3 * x - 0.2 * y),
    view(scene, { seed: 9 }, (x, y) => 0.15 - 0.2 * (x * x + y * y)),
    view(scene, { seed: 9, ev: 1 }),
    view(scene, { seed: 9, ev: 2.6 }),
    view(scene, { seed: 9, ev: -2 }),
    view(scene, { seed: 9, noise: 0.03 }),
    view(scene, { seed: 9, moved }),
  ];
  for (const [at, frame] of views.entries()) expect(laid(frame, reference).changed, `view ${at}`).toBeNull();
});
