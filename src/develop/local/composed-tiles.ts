import type { Matrix3 } from '../../colour/index.ts';
import type { Mosaic } from '../../facts/index.ts';
import type { Region } from '../../image/index.ts';
import { activeParts, type CompiledLook } from '../../look/index.ts';
import type { LightSpace } from '../display-light.ts';
import { lensPlaced } from '../lens/lens-placed.ts';
import type { DevelopPlan } from '../plan.ts';
import { type FramePlan, halfSize } from '../plan-frame.ts';
import { type TileMaker, wholePixels } from './bands.ts';
import { type PlacedPlan, spreadOver } from './plan-placed.ts';
import { cameraWindow, displayStep } from './window-light.ts';

/** Pixels of the result this far apart in the source, in its pixels, still hold all but the finest tenth of it. */
const spreadMost = 1.1;

/**
 * Whether a lens and a look's geometry are gone through in one resampling: where the picture's own pixels are taken, there is
 * one already; detail is worked on where the sensor's pixels lie, falloff too; and what geometry makes smaller has to be
 * averaged, which the lens's kernel does not do.
 */
export function isComposed(
  mosaic: Mosaic,
  look: CompiledLook,
  { from, placing, toSensor }: Pick<PlacedPlan, 'from' | 'placing' | 'toSensor'>,
): boolean {
  const scale = from === 'half' ? 2 : 1;
  // Of all of it, so that a region is the part of the whole.
  const whole = {
    ...{ leftPx: 0, topPx: 0 },
    ...{ widthPx: placing.widthPx / scale, heightPx: placing.heightPx / scale },
  };
  const parts = activeParts(look.local);
  return (
    (mosaic.lens?.steps.length ?? 0) > 0 &&
    wholePixels(toSensor) === null &&
    !parts.includes('smoothing') &&
    !parts.includes('acutance') &&
    !parts.includes('falloffEv') &&
    spreadOver(whole, toSensor) <= spreadMost
  );
}

/** Tiles of display light through geometry and lens at once; see {@link isComposed}. `toSensor`: as `PlacedPlan` has it. */
export function composedTiles(
  mosaic: Mosaic,
  plan: DevelopPlan,
  look: CompiledLook,
  from: FramePlan['from'],
  space: LightSpace,
  toSensor: Matrix3,
): TileMaker {
  const { lens, ...bare } = mosaic;
  if (lens === undefined) throw new RangeError('composedTiles: there is no lens');
  const sample = lensPlaced(
    lens,
    from,
    from === 'half' ? halfSize(mosaic) : mosaic,
    cameraWindow(bare, plan, from),
  );
  const toDisplay = displayStep(mosaic, plan, look, space);
  let light = new Float32Array(0);
  return (tile, band, window) => {
    const { leftPx, widthPx, heightPx } = tile;
    const count = widthPx * heightPx;
    if (light.length < count * 3) light = new Float32Array(count * 3);
    sample(count, (xs, ys) => placePixels(tile, toSensor, xs, ys), light);
    toDisplay(light, count);
    for (let row = 0; row < heightPx; row++) {
      const to = (row * window.widthPx + leftPx - window.leftPx) * 3;
      band.set(light.subarray(row * widthPx * 3, (row + 1) * widthPx * 3), to);
    }
  };
}

function placePixels(
  { leftPx, topPx, widthPx, heightPx }: Region,
  [a, b, c, d, e, f, g, h, i]: Matrix3,
  xs: Float64Array,
  ys: Float64Array,
): void {
  let index = 0;
  for (let row = 0; row < heightPx; row++) {
    const y = topPx + row + 0.5;
    for (let column = 0; column < widthPx; column++, index++) {
      const x = leftPx + column + 0.5;
      const depth = g * x + h * y + i;
      // Places are at outer corners, points at middles.
      xs[index] = (a * x + b * y + c) / depth - 0.5;
      ys[index] = (d * x + e * y + f) / depth - 0.5;
    }
  }
}
