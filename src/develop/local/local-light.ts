import type { Finding, Mosaic } from '../../facts/index.ts';
import { type Size, uprightSize } from '../../image/index.ts';
import { activeParts, type CompiledLook } from '../../look/index.ts';
import { type LightSpace, luminanceOf } from '../display-light.ts';
import { planDevelop } from '../plan.ts';
import { type FramePlan, halfSize, planFrame, type RenderSize } from '../plan-frame.ts';
import type { NoiseSource } from '../rendered.ts';
import { copyTiles, forEachBand, placeTiles } from './bands.ts';
import { composedTiles, isComposed } from './composed-tiles.ts';
import { type DetailPlan, planDetail } from './detail.ts';
import { grainLayer, mosaicSeed } from './grain.ts';
import { noiseScale, noNoise } from './noise-scale.ts';
import { planPlaced } from './plan-placed.ts';
import { windowLight } from './window-light.ts';

/** Display-linear light within 0 … 1 of a look with local parts. */
export interface LocalLight {
  /** What comes: with geometry a part of the picture placed, upright; without, as the sensor lies. */
  readonly window: Size;
  /** What that is to be reduced to. */
  readonly target: Size;
  readonly isUpright: boolean;
  /** See `Rendered`. */
  readonly full: Size;
  readonly issues: readonly Finding[];
  /** Brings all rows, from the top; each band is overwritten by the next, and may be overwritten by whoever takes it. */
  readonly forEachBand: (take: (band: Float32Array, rowStart: number, rowEnd: number) => void) => void;
}

/** Errors: as `renderMosaic`. */
export function localLight(
  mosaic: Mosaic,
  look: CompiledLook,
  size: RenderSize,
  space: LightSpace,
  noise: NoiseSource,
): LocalLight {
  const plan = planDevelop(mosaic);
  const parts = activeParts(look.local);
  const placed = parts.includes('geometry') ? planPlaced(mosaic, look.local.geometry, size) : null;
  const { window, target, from } = placed ?? planFrame(mosaic, size);
  const { detail, issues } = detailOf(mosaic, look, from, noise);
  const full = placed?.placing ?? uprightSize(mosaic, mosaic.orientation);
  return {
    window,
    target,
    isUpright: placed !== null,
    full: { widthPx: full.widthPx, heightPx: full.heightPx },
    issues: [...plan.issues, ...look.findings, ...issues, ...(placed?.placing.findings ?? [])],
    forEachBand: (take) => {
      const light = windowLight(mosaic, plan, look, from, detail, space);
      const { leftPx, topPx, widthPx } = window;
      const perPixel = from === 'half' ? 2 : 1;
      const grain = parts.includes('grain')
        ? grainLayer(look.local.grain, mosaicSeed(mosaic), perPixel, leftPx, widthPx, luminanceOf(space))
        : null;
      forEachBand(
        window,
        placed === null
          ? copyTiles(light)
          : isComposed(mosaic, look, placed)
            ? composedTiles(mosaic, plan, look, from, space, placed.toSensor)
            : placeTiles(light, placed.toSensor, from === 'half' ? halfSize(mosaic) : mosaic),
        (band, top, rows) => {
          grain?.(band, top, top + rows);
          take(band, top - topPx, top - topPx + rows);
        },
      );
    },
  };
}

/** Detail in units of noise; where that cannot be told, smoothing is left out and acutance has no gate, and it is said. */
function detailOf(
  mosaic: Mosaic,
  { local }: CompiledLook,
  from: FramePlan['from'],
  noise: NoiseSource,
): { readonly detail: DetailPlan | null; readonly issues: readonly Finding[] } {
  const parts = activeParts(local);
  if (!parts.includes('smoothing') && !parts.includes('acutance')) return { detail: null, issues: [] };
  const profile = noise();
  if (profile === null) {
    const smoothing = { luma: 0, chroma: 0 };
    return {
      detail: planDetail({ ...local, smoothing }, noNoise, from),
      issues: [{ code: 'develop.noise-unknown', args: {} }],
    };
  }
  return {
    detail: planDetail(local, noiseScale(profile, planDevelop(mosaic).bin, mosaic.filters), from),
    issues: [],
  };
}
