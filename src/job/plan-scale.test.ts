import { describe, expect, test } from 'vitest';
import { applyJobChoice } from './apply-choice.ts';
import type { JobChoice } from './choice.ts';
import { type Jobs, noWords, plainShot } from './job.ts';
import { planScale, planScaleGone, type ToldScale } from './plan-scale.ts';
import { inverseOfJobChoices } from './undo.ts';

const made: readonly JobChoice[] = [
  { type: 'job-described', job: 'A', ...noWords },
  { type: 'shot-stated', job: 'A', shot: plainShot('mug', 'Mug') },
  { type: 'shot-stated', job: 'A', shot: plainShot('jug', 'Jug') },
];
const jobs: Jobs = made.reduce<Jobs>(applyJobChoice, new Map());
const told: ToldScale = {
  frame: 'f',
  camera: 'cam1',
  shot: 'mug',
  widthPx: 6000,
  heightPx: 4000,
  focalLengthMm: 90,
  mm: 100,
  // 0.3 of 6000 px across and 0.6 of 4000 px down: 1800 and 2400 px, by Pythagoras 3000 px.
  on: {
    points: [
      { x: 0.1, y: 0.2 },
      { x: 0.4, y: 0.8 },
    ],
  },
};

const chosen = (choices: readonly JobChoice[], from: Jobs = jobs): Jobs =>
  choices.reduce<Jobs>(applyJobChoice, from);
const scalesOf = (all: Jobs) => all.get('A')?.scales ?? [];

describe('the scale of a shot', () => {
  test('two points tell it by their distance in the upright picture', () => {
    expect(scalesOf(chosen(planScale(jobs, 'A', told)))).toEqual([
      {
        shot: 'mug',
        frame: 'f',
        camera: 'cam1',
        by: 'points',
        mm: 100,
        px: expect.closeTo(3000, 9),
        longSidePx: 6000,
        focalLengthMm: 90,
      },
    ]);
  });

  test('a target tells it by five of the six steps that its width holds', () => {
    const [scale] = scalesOf(chosen(planScale(jobs, 'A', { ...told, on: { targetWidthPx: 1200 } })));
    expect(scale).toMatchObject({ by: 'target', mm: 100, px: 1000 });
  });

  test('told again it is replaced, for that shot only, and taken back it is what it was', () => {
    const first = chosen([
      ...planScale(jobs, 'A', told),
      ...planScale(jobs, 'A', { ...told, shot: 'mug', mm: 50 }),
    ]);
    const both = chosen(planScale(first, 'A', { ...told, shot: 'jug' }), first);
    expect(scalesOf(both).map(({ shot, mm }) => [shot, mm])).toEqual([
      ['mug', 50],
      ['jug', 100],
    ]);
    const gone = planScaleGone(both, 'A', 'mug');
    expect(scalesOf(chosen(gone, both)).map(({ shot }) => shot)).toEqual(['jug']);
    expect(scalesOf(chosen(inverseOfJobChoices(both, gone), chosen(gone, both)))).toEqual(scalesOf(both));
    expect(planScaleGone(jobs, 'A', 'mug')).toEqual([]);
  });

  test('a length that is none, or too short in the picture, is refused', () => {
    const near = {
      points: [
        { x: 0.5, y: 0.5 },
        { x: 0.5 + 49 / 6000, y: 0.5 },
      ],
    } as const;
    const enough = {
      points: [
        { x: 0.5, y: 0.5 },
        { x: 0.5 + 51 / 6000, y: 0.5 },
      ],
    } as const;
    expect(() => planScale(jobs, 'A', { ...told, on: near })).toThrow('too few to measure by');
    expect(planScale(jobs, 'A', { ...told, on: enough })).toHaveLength(1);
    for (const mm of [0, -1, Number.NaN, 100_001])
      expect(() => planScale(jobs, 'A', { ...told, mm })).toThrow('expected a length');
    expect(() => planScale(jobs, 'A', { ...told, shot: 'none' })).toThrow('no shot');
  });
});
