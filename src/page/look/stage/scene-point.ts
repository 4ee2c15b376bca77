import type { Vector3 } from '../../../colour/index.ts';
import type { RgbHalf } from '../../../image/index.ts';
import { fromHalves } from '../../../image/kernels/half-floats.ts';
import type { Placed } from '../painter/painter.ts';

/** Place in the scene of a place on the canvas, both as shares from the left top. */
export function sceneShare(
  { toScene }: Pick<Placed, 'toScene'>,
  x: number,
  y: number,
): { x: number; y: number } {
  const [a, b, c, d, e, f, g, h, i] = toScene;
  const w = g * x + h * y + i;
  return { x: (a * x + b * y + c) / w, y: (d * x + e * y + f) / w };
}

/** Mean light of a square about a place, `reach` pixels to each side; what lies outside the scene is left out. */
export function lightAbout(scene: RgbHalf, x: number, y: number, reach: number): Vector3 {
  const [column, row] = [Math.floor(x * scene.widthPx), Math.floor(y * scene.heightPx)];
  const sum: [number, number, number] = [0, 0, 0];
  let count = 0;
  const pixel = new Float32Array(3);
  for (let down = row - reach; down <= row + reach; down++) {
    for (let across = column - reach; across <= column + reach; across++) {
      if (down < 0 || across < 0 || down >= scene.heightPx || across >= scene.widthPx) continue;
      fromHalves(scene.halves, (down * scene.widthPx + across) * 3, 3, pixel, 0);
      sum[0] += pixel[0] ?? 0;
      sum[1] += pixel[1] ?? 0;
      sum[2] += pixel[2] ?? 0;
      count += 1;
    }
  }
  return count === 0 ? [0, 0, 0] : [sum[0] / count, sum[1] / count, sum[2] / count];
}

/** The light as a look's neutral takes it: null where it is too dark or too bright to tell a colour. */
export function neutralOf([r, g, b]: Vector3): Vector3 | null {
  const round = (value: number): number => Number(value.toPrecision(5));
  const isTold = [r, g, b].every((value) => value >= 0.002 && value <= 16);
  return isTold ? [round(r), round(g), round(b)] : null;
}
