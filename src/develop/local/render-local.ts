import type { Mosaic } from '../../facts/index.ts';
import { areaReducer, fitLongEdge, type Rgb8, type Size, turnUpright } from '../../image/index.ts';
import type { CompiledLook } from '../../look/index.ts';
import { srgbTable } from '../display-light.ts';
import { encodeSamples8 } from '../kernels/encode-samples.ts';
import type { RenderSize } from '../plan-frame.ts';
import type { NoiseSource, Rendered, RowWatch } from '../rendered.ts';
import { localLight } from './local-light.ts';

/** `renderMosaic` of a look with local parts. */
export function renderLocal(
  mosaic: Mosaic,
  look: CompiledLook,
  size: RenderSize,
  smallerEdgesPx: readonly number[],
  noise: NoiseSource,
  watch: RowWatch,
): Rendered {
  const light = localLight(mosaic, look, size, 'srgb', noise);
  const targets = [light.target, ...smallerEdgesPx.map((edgePx) => fitLongEdge(light.target, edgePx))];
  const takers = targets.map((target) => bandTaker(light.window, target));
  light.forEachBand((band, rowStart, rowEnd) => {
    for (const { take } of takers) take(band, rowEnd - rowStart);
    watch(rowEnd, light.window.heightPx);
  });
  const [picture, ...smaller] = takers.map((taker) =>
    light.isUpright ? taker.picture : turnUpright(taker.picture, mosaic.orientation),
  );
  if (picture === undefined) throw new Error('a rendering has a picture');
  return { picture, smaller, full: light.full, issues: light.issues };
}

export interface BandTaker {
  readonly picture: Rgb8;
  readonly take: (band: Float32Array, rows: number) => void;
}

/** A picture of sRGB, 8 bits, that grows from bands of display light from the top, reduced where `target` is smaller. */
export function bandTaker({ widthPx, heightPx }: Size, target: Size): BandTaker {
  const data = new Uint8Array(target.widthPx * target.heightPx * 3);
  const picture: Rgb8 = { data, widthPx: target.widthPx, heightPx: target.heightPx, channels: 3 };
  if (target.widthPx === widthPx && target.heightPx === heightPx) {
    let written = 0;
    return {
      picture,
      take: (band, rows) => {
        const count = rows * widthPx * 3;
        encodeSamples8(band, count, srgbTable, data, written);
        written += count;
      },
    };
  }
  const take = areaReducer({ widthPx, heightPx }, target, (line, row) => {
    encodeSamples8(line, line.length, srgbTable, data, row * line.length);
  });
  return { picture, take };
}
