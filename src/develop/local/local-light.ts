import type { Finding, Mosaic } from '../../facts/index.ts';
import { type Region, type Size, uprightSize } from '../../image/index.ts';
import { activeParts, type CompiledLook } from '../../look/index.ts';
import { type LightSpace, luminanceOf } from '../display-light.ts';
import { resampleRow, weightsLength } from '../kernels/resample-rows.ts';
import { planDevelop } from '../plan.ts';
import { type FramePlan, halfSize, planFrame, type RenderSize } from '../plan-frame.ts';
import type { NoiseSource } from '../rendered.ts';
import { type DetailPlan, planDetail } from './detail.ts';
import { grainLayer, mosaicSeed } from './grain.ts';
import { noiseScale, noNoise } from './noise-scale.ts';
import { type PlacedPlan, planPlaced, sourceRegion } from './plan-placed.ts';
import { type WindowLight, windowLight } from './window-light.ts';

/**
 * Rows that are made at a time, in tiles so wide: margins cost a quarter more at the widest smoothing. Memory beside mosaic
 * and result: the rows, 12 bytes a pixel (75 MB for the widest sensor), and a tile with its margins, 30 MB at the most.
 */
const bandRows = 384;
const tileColumns = 512;

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
        placed === null ? copyTiles(light) : placeTiles(light, placed, mosaic),
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

/** Writes a tile of the window into a band that begins at row `top`. */
type TileMaker = (tile: Region, band: Float32Array, window: Region, top: number) => void;

function forEachBand(
  window: Region,
  make: TileMaker,
  finish: (band: Float32Array, topPx: number, rows: number) => void,
): void {
  const band = new Float32Array(Math.min(bandRows, window.heightPx) * window.widthPx * 3);
  const bottom = window.topPx + window.heightPx;
  const right = window.leftPx + window.widthPx;
  for (let topPx = window.topPx; topPx < bottom; topPx += bandRows) {
    const heightPx = Math.min(bandRows, bottom - topPx);
    for (let leftPx = window.leftPx; leftPx < right; leftPx += tileColumns) {
      const widthPx = Math.min(tileColumns, right - leftPx);
      make({ leftPx, topPx, widthPx, heightPx }, band, window, topPx);
    }
    finish(band, topPx, heightPx);
  }
}

function copyTiles(light: WindowLight): TileMaker {
  return (tile, band, window) => {
    const made = light(tile);
    const length = tile.widthPx * 3;
    for (let row = 0; row < tile.heightPx; row++) {
      const to = (row * window.widthPx + tile.leftPx - window.leftPx) * 3;
      band.set(made.subarray(row * length, (row + 1) * length), to);
    }
  };
}

function placeTiles(light: WindowLight, { toSensor, from }: PlacedPlan, mosaic: Mosaic): TileMaker {
  const size: Size = from === 'half' ? halfSize(mosaic) : mosaic;
  const numbers = Float64Array.from(toSensor);
  const weightsX = new Float64Array(weightsLength);
  const weightsY = new Float64Array(weightsLength);
  return (tile, band, window, top) => {
    const source = sourceRegion(tile, toSensor, size);
    const made = light(source);
    for (let row = 0; row < tile.heightPx; row++) {
      resampleRow(
        made,
        source.widthPx,
        source.heightPx,
        source.leftPx,
        source.topPx,
        numbers,
        tile.leftPx + 0.5,
        top + row + 0.5,
        tile.widthPx,
        weightsX,
        weightsY,
        band,
        (row * window.widthPx + tile.leftPx - window.leftPx) * 3,
      );
    }
  };
}
