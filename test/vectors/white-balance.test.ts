import { readFileSync } from 'node:fs';
import Color from 'colorjs.io';
import { uv } from 'colorjs.io/fn';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { applyMatrix, parseMatrix, type Vector3 } from '../../src/colour/index.ts';
import type { Triple } from '../../src/facts/index.ts';
import { colourDrift } from '../../src/judge/colour/drift.ts';
import { greyError } from '../../src/judge/colour/grey-error.ts';
import { noWishes, readPicture } from '../../src/judge/index.ts';
import { hasShared, sharedPath } from '../shared.ts';

/**
 * A photograph (coffee, CC0, scikit-image) with an 18 % grey card put in and a known linear cast, measured on the stored
 * pixels: `reference/white-balance/truth.json` says how. Gains to neutral agree within its own tolerance of 1 %.
 */
interface CastTruth {
  readonly file: string;
  readonly grey_card: { readonly x: number; readonly y: number; readonly w: number; readonly h: number };
  readonly card_linear_rgb: Vector3;
  readonly gains_to_neutral_green_1: Vector3;
}

describe.skipIf(!hasShared())('a grey card in coloured light', () => {
  const folder = 'reference/white-balance';
  const truth = (): { readonly tolerance: number; readonly images: readonly CastTruth[] } =>
    JSON.parse(readFileSync(sharedPath(`${folder}/truth.json`), 'utf8'));
  const files = ['coffee-neutral.png', 'coffee-tungsten.png', 'coffee-shade.png'];
  const of = (file: string): CastTruth => {
    const found = truth().images.find((image) => image.file === file);
    if (found === undefined) throw new Error(`no truth of ${file}`);
    return found;
  };

  /** Linear light of the parts of the picture that lie on the card, and the way from there to XYZ D50. */
  async function card(file: string): Promise<{ readonly light: Triple; readonly xyz: Vector3 }> {
    const { data, info } = await sharp(sharedPath(`${folder}/${file}`))
      .removeAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const picture = {
      data: new Uint8Array(data),
      widthPx: info.width,
      heightPx: info.height,
      channels: 3 as const,
    };
    const { colours } = readPicture(picture, noWishes, null);
    if (colours === null) throw new Error('a picture has colours');
    const { x, y, w, h } = of(file).grey_card;
    const inside = colours.light.filter((light, part) => {
      const [column, row] = [part % colours.columns, Math.floor(part / colours.columns)];
      const [partW, partH] = [info.width / colours.columns, info.height / colours.rows];
      const isIn =
        column * partW >= x &&
        (column + 1) * partW <= x + w &&
        row * partH >= y &&
        (row + 1) * partH <= y + h;
      return isIn && light !== null;
    });
    const [light] = inside;
    if (light === undefined || light === null) throw new Error('no part lies on the card');
    const matrix = colours.toXyz === null ? null : parseMatrix(colours.toXyz);
    if (matrix === null) throw new Error('a picture has its matrix');
    const [m0, m1, m2] = colours.multipliers;
    return { light, xyz: applyMatrix(matrix, [light[0] * m0, light[1] * m1, light[2] * m2]) };
  }

  test.each(files)('%s: the gains that make the card neutral are those measured on it', async (file) => {
    const { light } = await card(file);
    const { tolerance } = truth();
    const { gains_to_neutral_green_1: gains, card_linear_rgb: linear } = of(file);
    expect(Math.abs(light[1] / light[0] / gains[0] - 1)).toBeLessThan(tolerance);
    expect(Math.abs(light[1] / light[2] / gains[2] - 1)).toBeLessThan(tolerance);
    expect(Math.abs(light[1] / linear[1] - 1)).toBeLessThan(tolerance);
  });

  /** Of linear sRGB, by color.js. */
  const uvOf = (linear: Vector3): readonly [number, number] => {
    const [u = 0, v = 0] = uv(new Color('srgb-linear', [...linear]));
    return [u, v];
  };

  test.each(['coffee-tungsten.png', 'coffee-shade.png'])(
    '%s: the card has drifted by as much as color.js says, and its warmth has the right sign',
    async (file) => {
      const [before, after] = [await card('coffee-neutral.png'), await card(file)];
      const [u0, v0] = uvOf(of('coffee-neutral.png').card_linear_rgb);
      const [u1, v1] = uvOf(of(file).card_linear_rgb);
      const drift = colourDrift([before.xyz], [after.xyz]);
      // Half a code of 8 bits in blue moves a card of 18 % by 0.0006.
      expect(Math.abs((drift?.deltaUv ?? 0) - Math.hypot(u1 - u0, v1 - v0))).toBeLessThan(0.001);
      const error = greyError([after.xyz], [before.xyz]);
      if (file.includes('tungsten')) expect(error?.deltaK).toBeLessThan(-1000);
      else expect(error?.deltaK).toBeGreaterThan(1000);
    },
  );
});
