import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import { deltaE2000, type Vector3 } from '../../src/colour/index.ts';
import type { PlaceShift } from '../../src/facts/index.ts';
import type { Rgb8 } from '../../src/image/index.ts';
import { placeOfPicture, readInPlace } from '../../src/judge/index.ts';

/**
 * scikit-image and OpenCV look at the same pictures and colours. They are asked while the test runs (Debian's python3-skimage
 * and python3-opencv, tried with 0.19.3 and 4.6.0); where they are not installed the test is skipped by its name.
 */
const tool = join(import.meta.dirname, '../tools/second_opinion.py');
// The system's own Python first: another one in the path knows nothing of its packages.
const python = ['/usr/bin/python3', 'python3'].find(
  (program) => spawnSync(program, [tool, 'versions']).status === 0,
);

/** The caller states the shape that the tool prints. */
function ask<T>(how: string, paths: readonly string[], input = ''): T {
  const answer = execFileSync(python ?? '', [tool, how, ...paths], { input, encoding: 'utf8' });
  return JSON.parse(answer);
}

interface Opinion {
  readonly skimage: { readonly dx: number; readonly dy: number };
  readonly opencv: {
    readonly dx: number;
    readonly dy: number;
    readonly rotationDegrees: number;
    readonly scale: number;
  };
}

describe.skipIf(python === undefined)(
  'scikit-image and OpenCV, where they are installed, say the same',
  () => {
    const folder = mkdtempSync(join(tmpdir(), 'setside-opinion-'));
    afterAll(() => rmSync(folder, { recursive: true, force: true }));
    const photo = join(import.meta.dirname, 'in-place/coffee-ref.png');

    /**
     * The photograph at half its size, its part moved by so many pixels of the large one: known to half a pixel of the small
     * one, by counting. Turned and scaled about the middle of the part where that is asked for.
     */
    async function taken(name: string, right: number, down: number, turn = 0, scale = 1): Promise<string> {
      const { width = 0, height = 0 } = await sharp(photo).metadata();
      const size = { width: Math.round(width * 0.7), height: Math.round(height * 0.7) };
      const [left, top] = [Math.round(width * 0.15), Math.round(height * 0.15)];
      const whole = await sharp(photo).extract({ left: 0, top: 0, width, height }).toBuffer();
      const moved =
        turn === 0 && scale === 1
          ? whole
          : await sharp(whole)
              .affine(matrixOf(turn, scale), {
                idx: -left - size.width / 2,
                idy: -top - size.height / 2,
                odx: left + size.width / 2,
                ody: top + size.height / 2,
                interpolator: 'bicubic',
              })
              .toBuffer();
      const path = join(folder, name);
      const part = await sharp(moved)
        .extract({ left: left - right, top: top - down, ...size })
        .toBuffer();
      await sharp(part)
        .resize(size.width >> 1, size.height >> 1, { fit: 'fill', kernel: 'linear' })
        .png()
        .toFile(path);
      return path;
    }

    function matrixOf(turnDegrees: number, scale: number): [[number, number], [number, number]] {
      const [c, s] = [
        scale * Math.cos((turnDegrees * Math.PI) / 180),
        scale * Math.sin((turnDegrees * Math.PI) / 180),
      ];
      return [
        [c, -s],
        [s, c],
      ];
    }

    async function own(reference: string, moved: string): Promise<PlaceShift> {
      const plane = async (path: string) => {
        const { data, info } = await sharp(path)
          .removeAlpha()
          .toColourspace('srgb')
          .raw()
          .toBuffer({ resolveWithObject: true });
        const picture: Rgb8 = {
          data: new Uint8Array(data),
          widthPx: info.width,
          heightPx: info.height,
          channels: 3,
        };
        return placeOfPicture(picture, null);
      };
      const { shift } = readInPlace(await plane(moved), { plane: await plane(reference), region: null });
      if (shift === null || 'unknown' in shift) throw new Error(`not told: ${shift?.unknown}`);
      return shift;
    }

    test('shifts: within 0.1 px of what was counted, and of OpenCV', async () => {
      const steps = [
        [3, -1],
        [-8, 5],
        [13, 11],
      ] as const;
      const reference = await taken('reference.png', 0, 0);
      const moved = await Promise.all(steps.map(([x, y], at) => taken(`shift-${at}.png`, x, y)));
      const opinions = ask<Opinion[]>('register', [reference, ...moved]);
      for (const [at, [x, y]] of steps.entries()) {
        const { rightPx, downPx } = await own(reference, moved[at]);
        const { opencv, skimage } = opinions[at];
        expect(Math.hypot(rightPx - x / 2, downPx - y / 2)).toBeLessThan(0.1);
        expect(Math.hypot(rightPx - opencv.dx, downPx - opencv.dy)).toBeLessThan(0.1);
        // Its correlation takes the border in, where other things stand: it is good to half a pixel here.
        expect(Math.hypot(rightPx - skimage.dx, downPx - skimage.dy)).toBeLessThan(0.5);
      }
    });

    test('turned and scaled: within 0.3 px, 0.05 degrees and 0.002 of OpenCV', async () => {
      const reference = await taken('upright.png', 0, 0);
      const ways = [
        [1.5, 1],
        [-0.8, 1.01],
        [0.5, 0.985],
      ] as const;
      const moved = await Promise.all(
        ways.map(([turn, scale], at) => taken(`turn-${at}.png`, 2, 3, turn, scale)),
      );
      const opinions = ask<Opinion[]>('register', [reference, ...moved]);
      for (const [at, [turn, scale]] of ways.entries()) {
        const found = await own(reference, moved[at]);
        const { opencv } = opinions[at];
        expect(Math.hypot(found.rightPx - opencv.dx, found.downPx - opencv.dy)).toBeLessThan(0.3);
        expect(Math.abs(found.clockwiseDegrees - opencv.rotationDegrees)).toBeLessThan(0.05);
        expect(Math.abs(1 + found.largerPercent / 100 - opencv.scale)).toBeLessThan(0.002);
        expect(Math.abs(found.clockwiseDegrees - turn)).toBeLessThan(0.05);
        expect(Math.abs(1 + found.largerPercent / 100 - scale)).toBeLessThan(0.002);
      }
    });

    test('CIEDE2000 of 500 pairs of colours', () => {
      // Spread without chance: shares of irrational steps.
      const at = (n: number, step: number, span: number, from: number): number =>
        from + span * ((n * step) % 1);
      const pairs = Array.from({ length: 500 }, (_, n): [Vector3, Vector3] => [
        [at(n, 0.618_034, 100, 0), at(n, 0.754_878, 200, -100), at(n, 0.569_84, 200, -100)],
        [at(n, 0.819_173, 100, 0), at(n, 0.671_044, 200, -100), at(n, 0.549_7, 200, -100)],
      ]);
      const theirs = ask<number[]>('deltae', [], JSON.stringify(pairs));
      expect(theirs).toHaveLength(500);
      for (const [n, [one, other]] of pairs.entries())
        expect(deltaE2000(one, other)).toBeCloseTo(theirs[n], 7);
    });
  },
);
