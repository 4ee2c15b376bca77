import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Fault } from '../../src/stand-in/core/faults.ts';
import type { FramePurpose, FrameRecipe, ShotName } from '../../src/stand-in/core/frame-plan.ts';
import { frameSize } from '../../src/stand-in/core/frame-size.ts';
import { type FrameTruth, frameTruth } from '../../src/stand-in/core/frame-truth.ts';
import { cameraRay } from '../../src/stand-in/core/kernels/soft-light.ts';
import { traceRay } from '../../src/stand-in/core/kernels/trace.ts';
import { prepareScene } from '../../src/stand-in/core/render-region.ts';
import { setShots } from '../../src/stand-in/core/set-list.ts';
import { rightSet } from '../../src/stand-in/core/set-variant.ts';
import { describeSet } from './set-description.ts';

/**
 * The truths that come with frames against `stand_in_truth.py`, which computes them from the set's description and the
 * physics alone (Python 3, standard library).
 */
const setPath = join(import.meta.dirname, 'set.json');
const scriptPath = join(import.meta.dirname, 'stand_in_truth.py');

interface ScriptTruth {
  readonly exposureEv: number;
  readonly sigmaPx: number;
  readonly sigmaWithPixelPx: number;
  readonly lens: FrameTruth['lens'];
  readonly whiteXy: readonly [number, number];
  readonly subject: FrameTruth['subject'];
  readonly patches: readonly Omit<FrameTruth['patches'][number], 'labD50'>[];
}

function askScript(recipes: readonly FrameRecipe[], megapixels: number): ScriptTruth[] {
  const { widthPx, heightPx } = frameSize(megapixels);
  const asked = recipes.map((recipe) => ({
    ...recipe,
    widthPx,
    heightPx,
    faults: Object.fromEntries(recipe.faults.map(({ name, value }) => [name, value ?? 0])),
  }));
  const answer = execFileSync('python3', [scriptPath, setPath], {
    input: JSON.stringify(asked),
    encoding: 'utf8',
  });
  // The script's own output, whose shape is written down in its head.
  return JSON.parse(answer) as ScriptTruth[];
}

const recipe = (
  shot: ShotName,
  purpose: FramePurpose,
  faults: readonly Fault[] = [],
  more: Partial<FrameRecipe> = {},
): FrameRecipe => ({
  shot,
  purpose,
  exposureEv: 0,
  offsetPx: [0, 0],
  addedSigmaPx: 0,
  noiseSeed: 5,
  noise: false,
  ...more,
  faults,
});

test('the description that the script is told is that of the set that is photographed', () => {
  expect(JSON.parse(JSON.stringify(describeSet()))).toEqual(JSON.parse(readFileSync(setPath, 'utf8')));
});

const recipes: readonly FrameRecipe[] = [
  recipe('mug', 'target', [{ name: 'strobe', value: null }], { offsetPx: [2, -1] }),
  recipe('jug', 'target', [
    { name: 'shift', value: 8 },
    { name: 'tint', value: 5000 },
  ]),
  recipe('bowl', 'picture', [
    { name: 'soft', value: 2 },
    { name: 'exposure', value: -1.5 },
  ]),
  recipe('plate-stack', 'target', [{ name: 'tint', value: 9000 }], { exposureEv: 0.02 }),
  recipe('teapot', 'picture', [{ name: 'shift', value: -5 }], { addedSigmaPx: 0.7 }),
  recipe('group', 'target', [{ name: 'tint', value: 3200 }]),
  recipe('mug', 'chart'),
];

/** Both sample curves and skins, each in its own way: a third of a millimetre on the ware. */
const boxMm = 0.35;
/** Krystek's fit and the observer's analytic form are each good to some thousandths of x, y. */
const glowXy = 0.004;

test.each([
  [0.3, recipes],
  [24, recipes.slice(0, 2)],
] as const)(
  'truth and script agree on places, blur, light and colour at %s megapixels',
  (megapixels, asked) => {
    const size = frameSize(megapixels);
    const answers = askScript(asked, megapixels);
    asked.forEach((one, index) => {
      const ours = frameTruth(one, size);
      const theirs = answers[index];
      if (theirs === undefined) throw new Error('the script answers each recipe');
      for (const key of ['exposureEv', 'sigmaPx', 'sigmaWithPixelPx'] as const) {
        expect(ours[key]).toBeCloseTo(theirs[key], 9);
      }
      for (const key of ['focalMm', 'apertureMm', 'focusMm', 'imageMm', 'pixelMm'] as const) {
        expect(ours.lens[key]).toBeCloseTo(theirs.lens[key], 6);
      }
      const glows = (one.faults.find(({ name }) => name === 'tint')?.value ?? 6504) < 5000;
      const xyWithin = glows ? glowXy : 1e-6;
      ours.light.whiteXy.forEach((value, k) => {
        expect(Math.abs(value - (theirs.whiteXy[k] ?? 0))).toBeLessThan(xyWithin);
      });
      expectSameSubject(ours, theirs, size.widthPx);
      expectSamePatches(ours, theirs, glows ? 0.02 : 1e-5);
    });
  },
);

function expectSameSubject(ours: FrameTruth, theirs: ScriptTruth, widthPx: number): void {
  if (ours.subject === null || theirs.subject === null) {
    expect(ours.subject).toEqual(theirs.subject);
    return;
  }
  // Some 300 mm of the set fill the width of the closest frame.
  const boxPx = (boxMm * widthPx) / 300;
  for (const k of [0, 1, 2, 3] as const) {
    expect(Math.abs(ours.subject.boxPx[k] - theirs.subject.boxPx[k])).toBeLessThan(boxPx);
  }
  expect(ours.subject.shiftMm).toBeCloseTo(theirs.subject.shiftMm, 9);
  for (const k of [0, 1] as const) {
    expect(ours.subject.shiftPx[k]).toBeCloseTo(theirs.subject.shiftPx[k], 9);
  }
}

function expectSamePatches(ours: FrameTruth, theirs: ScriptTruth, xyzWithin: number): void {
  expect(ours.patches).toHaveLength(theirs.patches.length);
  ours.patches.forEach((patch, index) => {
    const other = theirs.patches[index];
    if (other === undefined) throw new Error('a patch for each');
    patch.cornersPx.forEach(([x, y], corner) => {
      expect(x).toBeCloseTo(other.cornersPx[corner]?.[0] ?? Number.NaN, 6);
      expect(y).toBeCloseTo(other.cornersPx[corner]?.[1] ?? Number.NaN, 6);
    });
    expect(patch.circlePx).toBeCloseTo(other.circlePx, 6);
    expect(patch.sigmaPx).toBeCloseTo(other.sigmaPx, 6);
    // Both sum over rays, not the same ones.
    expect(Math.abs(patch.lightEv - other.lightEv)).toBeLessThan(0.04);
    patch.xyz.forEach((value, k) => {
      expect(Math.abs(value - (other.xyz[k] ?? 0))).toBeLessThan(xyzWithin);
    });
  });
}

test.each(['mug', 'jug', 'teapot'] as const)(
  'the rays of %s meet ware just where the script says it stands',
  (shot) => {
    const megapixels = 0.3;
    const size = frameSize(megapixels);
    const [answer] = askScript([recipe(shot, 'picture')], megapixels);
    const box = waryPixels(shot, megapixels);
    const theirs = answer?.subject?.boxPx ?? [0, 0, 0, 0];
    const frame = [0, 0, size.widthPx, size.heightPx];
    box.forEach((value, k) => {
      // Pixels are met by their middle: an outline lies up to half a pixel beyond the last that is met.
      const within =
        k < 2 ? Math.max(theirs[k] ?? 0, frame[k] ?? 0) : Math.min(theirs[k] ?? 0, frame[k] ?? 0);
      expect(Math.abs(value - within)).toBeLessThan(1.1);
    });
  },
);

/** left, top, right, bottom of the pixels whose ray meets ware. */
function waryPixels(shot: ShotName, megapixels: number): [number, number, number, number] {
  const size = frameSize(megapixels);
  const { stage } = prepareScene(shot, 'picture', size, rightSet);
  const pieces = setShots[shot].pieces.length;
  const ray = new Float64Array(6);
  const met = new Float64Array(1);
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let y = 0; y < size.heightPx; y++) {
    for (let x = 0; x < size.widthPx; x++) {
      cameraRay(stage.camera, x + size.marginPx + 0.5, y + size.marginPx + 0.5, ray);
      const what = traceRay(stage, ray, met);
      if (what < 0 || what >= pieces) continue;
      box[0] = Math.min(box[0], x);
      box[1] = Math.min(box[1], y);
      box[2] = Math.max(box[2], x + 1);
      box[3] = Math.max(box[3], y + 1);
    }
  }
  return box;
}
