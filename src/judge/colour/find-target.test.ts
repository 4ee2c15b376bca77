import { describe, expect, test } from 'vitest';
import type { Vector3 } from '../../colour/index.ts';
import { gaussian } from '../testing/made-light.ts';
import { type MadeTarget, madePatches, madeTargetPicture, pictureToTarget } from '../testing/made-target.ts';
import { colourOfPicture } from './colour-light.ts';
import { type FoundTarget, findTarget } from './find-target.ts';
import { applyHomography } from './homography.ts';

type Made = Parameters<typeof madeTargetPicture>[0];

function look(made: Partial<Made> & Pick<Made, 'targets'>): ReturnType<typeof findTarget> {
  const picture = madeTargetPicture({ widthPx: 300, heightPx: 240, noise: 1, ...made });
  return findTarget(colourOfPicture(picture, 1), false);
}

/** Largest distance of a patch's centre from where the known homography has it, in steps from patch to patch. */
function misplaced(target: MadeTarget, found: FoundTarget): number {
  const toTarget = pictureToTarget(target);
  const distances = Array.from({ length: 24 }, (_, index) => {
    const [column, row] = [index % 6, Math.floor(index / 6)];
    const at = applyHomography(found.toLight, { x: column, y: row });
    const [u, v] = toTarget(at.x, at.y);
    return Math.hypot(u - column, v - row);
  });
  return Math.max(...distances);
}

function found(target: MadeTarget, made: Partial<Made> = {}): FoundTarget {
  const answer = look({ targets: [target], ...made });
  if (typeof answer === 'string') throw new Error(`expected a target, got ${answer}`);
  return answer;
}

describe('a target under a known homography is found within a twentieth of a step', () => {
  const centre = [150, 120] as const;
  test.each([
    ['80 px wide, level', { widthPx: 80 }],
    [
      '80 px wide, turned and tilted',
      { widthPx: 80, rotationDegrees: 33, tiltDegrees: 30, tiltAxisDegrees: 76 },
    ],
    ['80 px wide, upside down', { widthPx: 80, rotationDegrees: 180, tiltDegrees: 30 }],
    ['on its side', { widthPx: 150, rotationDegrees: 90, tiltDegrees: 15, tiltAxisDegrees: 45 }],
    ['on its other side', { widthPx: 150, rotationDegrees: -90 }],
    ['at 45 degrees', { widthPx: 190, rotationDegrees: 45, tiltDegrees: 30, tiltAxisDegrees: 10 }],
    ['almost upside down', { widthPx: 190, rotationDegrees: 200, tiltDegrees: -30, tiltAxisDegrees: 130 }],
    [
      'of the older edition',
      { widthPx: 120, rotationDegrees: 300, edition: 'before-november-2014' as const },
    ],
  ])('%s', (_, how) => {
    const target = { centre, ...how };
    const answer = found(target);
    expect(misplaced(target, answer)).toBeLessThan(0.05);
    expect(answer.confidence).toBeGreaterThan(0.8);
  });

  test('in the light of a lamp three stops too dark, with noise', () => {
    const target = { centre, widthPx: 200, rotationDegrees: 12, tiltDegrees: 20 };
    expect(misplaced(target, found(target, { gains: [0.12, 0.08, 0.03], noise: 1.5 }))).toBeLessThan(0.05);
  });

  test('through noise of four codes', () => {
    const target = { centre, widthPx: 200, rotationDegrees: 12, tiltDegrees: 20 };
    expect(misplaced(target, found(target, { noise: 4 }))).toBeLessThan(0.05);
  });

  test('before tiles of its own size', () => {
    const target = { centre, widthPx: 150, rotationDegrees: 8 };
    const random = gaussian(3);
    const tiles = Array.from(
      { length: 400 },
      (): Vector3 => [random() ** 2 / 4, random() ** 2 / 4, random() ** 2 / 4],
    );
    const behind = (x: number, y: number): Vector3 => {
      const isJoint = ((x % 25) + 25) % 25 < 4 || ((y % 25) + 25) % 25 < 4;
      const tile = tiles[(Math.floor(y / 25) * 20 + Math.floor(x / 25) + 400) % 400];
      return isJoint || tile === undefined ? [0.02, 0.02, 0.02] : tile;
    };
    expect(misplaced(target, found(target, { behind }))).toBeLessThan(0.05);
    // The tiles alone are none.
    expect(look({ targets: [], behind })).toBe('none');
  });
});

describe('what is no target, or cannot be read as one, is said', () => {
  const target: MadeTarget = { centre: [150, 120], widthPx: 160, rotationDegrees: 25, tiltDegrees: 15 };

  test('an empty picture', () => expect(look({ targets: [] })).toBe('none'));

  test('a black one, a white one, one of a pixel', () => {
    expect(look({ targets: [], gains: [0, 0, 0], noise: 0 })).toBe('none');
    expect(look({ targets: [], gains: [9, 9, 9], noise: 0 })).toBe('none');
    expect(look({ targets: [], widthPx: 1, heightPx: 1 })).toBe('none');
    expect(look({ targets: [], widthPx: 3, heightPx: 2 })).toBe('none');
  });

  test('mirrored', () => {
    expect(look({ targets: [{ ...target, mirrored: true }] })).toBe('mirrored');
    expect(look({ targets: [{ ...target, mirrored: true, rotationDegrees: 205 }] })).toBe('mirrored');
  });

  test('mirrored as stored, so that it is right when upright', () => {
    const picture = madeTargetPicture({
      widthPx: 300,
      heightPx: 240,
      targets: [{ ...target, mirrored: true }],
    });
    expect(findTarget(colourOfPicture(picture, 1), true)).toMatchObject({ confidence: expect.any(Number) });
  });

  test.each([0, 30, 55])('cut off by the border, its middle at %d px', (x) => {
    const answer = look({ targets: [{ centre: [x, 120], widthPx: 160, rotationDegrees: 4 }] });
    expect(['cut-off', 'unsure', 'none']).toContain(answer);
    if (x >= 30) expect(answer).toBe('cut-off');
  });

  test('two of them', () => {
    const targets: MadeTarget[] = [
      { centre: [80, 70], widthPx: 110, rotationDegrees: 10 },
      { centre: [215, 165], widthPx: 130, rotationDegrees: 190, tiltDegrees: 20 },
    ];
    expect(look({ targets })).toBe('several');
  });

  test('a target without its colours, and its negative', () => {
    const picture = madeTargetPicture({ widthPx: 300, heightPx: 240, targets: [target] });
    const grey = picture.data.map((_, at) => picture.data[3 * Math.floor(at / 3) + 1] ?? 0);
    expect(typeof findTarget(colourOfPicture({ ...picture, data: grey }, 1), false)).toBe('string');
    const inverted = picture.data.map((code) => 255 - code);
    expect(typeof findTarget(colourOfPicture({ ...picture, data: inverted }, 1), false)).toBe('string');
  });

  test('sheets of 6 x 4 patches in a wrong order, or of any colours, are never taken for one', () => {
    const random = gaussian(11);
    const order = madePatches('from-november-2014');
    for (let round = 0; round < 8; round++) {
      const shuffled = order
        .map((patch) => ({ patch, key: random() }))
        .sort((a, b) => a.key - b.key)
        .map(({ patch }) => patch);
      const any = order.map((): Vector3 => [random() ** 2 / 3, random() ** 2 / 3, random() ** 2 / 3]);
      for (const patches of [shuffled, any]) {
        const answer = look({ targets: [{ ...target, patches }] });
        expect(['none', 'unsure', 'cut-off']).toContain(answer);
      }
    }
  });
});
