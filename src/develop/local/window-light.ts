import type { Mosaic, RawLayout } from '../../facts/index.ts';
import type { Region, Size } from '../../image/index.ts';
import type { CompiledLook } from '../../look/index.ts';
import { falloffSteepness, halfDiagonalPx } from '../../look/index.ts';
import { cameraLight, cameraWork } from '../camera-light.ts';
import { type LightSpace, lightPlan, srgbTable, stripKernels } from '../display-light.ts';
import { highlightHints, rebuildRows } from '../highlight-hints.ts';
import { falloffRows } from '../kernels/falloff-rows.ts';
import { rebuildStrip } from '../kernels/rebuild-highlights.ts';
import { layoutRows } from '../layouts/layout-rows.ts';
import { lensWindows } from '../lens/lens-rows.ts';
import type { DevelopPlan } from '../plan.ts';
import { type FramePlan, halfSize } from '../plan-frame.ts';
import type { StripKernels } from '../strip-kernels.ts';
import { forEachStrip, stripRows } from '../strips.ts';
import type { WindowLight } from './bands.ts';
import { type DetailPlan, detailStep } from './detail.ts';

/** Samples of a mosaic around a window that its demosaicing looks at, and a few more; even. */
const demosaicPad = 24;

/**
 * The light of windows of the picture at full or half size, as the sensor lies, each made from the part of the mosaic it needs: with its own margins, so that a window is the part of
 * the whole, to the last digit. Memory: for the largest window asked for with its margins, 2 bytes a sample and 68 a pixel.
 */
export function windowLight(
  mosaic: Mosaic,
  plan: DevelopPlan,
  look: CompiledLook,
  from: FramePlan['from'],
  detail: DetailPlan | null,
  space: LightSpace,
): WindowLight {
  const perPixel = from === 'half' ? 2 : 1;
  const size = from === 'half' ? halfSize(mosaic) : mosaic;
  const part = cameraWindow(mosaic, plan, from);
  const toDisplay = displayStep(mosaic, plan, look, space);
  const falloff = falloffStep(look.local.falloffEv, mosaic, perPixel);
  const margin = detail?.marginPx ?? 0;
  let light = new Float32Array(0);
  let step: ReturnType<typeof detailStep> | null = null;
  let out = new Float32Array(0);
  return (window) => {
    const outer = grown(window, margin, size);
    const pixels = outer.widthPx * outer.heightPx;
    if (light.length < pixels * 3) {
      light = new Float32Array(pixels * 3);
      step = detail === null ? null : detailStep(detail, pixels);
    }
    part(outer, light);
    step?.(light, outer.widthPx, outer.heightPx);
    falloff?.(light, outer);
    if (out.length < window.widthPx * window.heightPx * 3)
      out = new Float32Array(window.widthPx * window.heightPx * 3);
    cut(light, outer, window, out);
    toDisplay(out, window.widthPx * window.heightPx);
    return out;
  };
}

/** A region with `margin` more on each side, as far as there is picture. */
export function grown({ leftPx, topPx, widthPx, heightPx }: Region, margin: number, within: Size): Region {
  const left = Math.max(0, leftPx - margin);
  const top = Math.max(0, topPx - margin);
  return {
    leftPx: left,
    topPx: top,
    widthPx: Math.min(within.widthPx, leftPx + widthPx + margin) - left,
    heightPx: Math.min(within.heightPx, topPx + heightPx + margin) - top,
  };
}

function cut(from: Float32Array, outer: Region, window: Region, to: Float32Array): void {
  const length = window.widthPx * 3;
  for (let row = 0; row < window.heightPx; row++) {
    const start = ((row + window.topPx - outer.topPx) * outer.widthPx + window.leftPx - outer.leftPx) * 3;
    to.set(from.subarray(start, start + length), row * length);
  }
}

/** Balanced camera RGB of windows, highlights rebuilt, into an array that is given. */
export function cameraWindow(
  mosaic: Mosaic,
  plan: DevelopPlan,
  from: FramePlan['from'],
): (window: Region, to: Float32Array) => void {
  const { lens, ...bare } = mosaic;
  const { bin } = plan;
  if (lens !== undefined && lens.steps.length > 0) {
    const whole = from === 'half' ? halfSize(mosaic) : mosaic;
    return lensWindows(lens, from, whole, cameraWindow(bare, plan, from));
  }
  const perPixel = from === 'half' ? 2 : 1;
  if (mosaic.layout !== undefined) return layoutWindow(mosaic, mosaic.layout, bin, from);
  const hints = highlightHints(mosaic, bin);
  return (window, to) => {
    const needed = {
      leftPx: window.leftPx * perPixel,
      topPx: window.topPx * perPixel,
      widthPx: window.widthPx * perPixel,
      heightPx: window.heightPx * perPixel,
    };
    const samples = onFilters(grown(needed, demosaicPad, mosaic));
    const piece = pieceOf(mosaic, samples);
    const leftPx = (needed.leftPx - samples.leftPx) / perPixel;
    const topPx = (needed.topPx - samples.topPx) / perPixel;
    const { widthPx, heightPx } = window;
    // Half size comes in whole rows of the piece.
    const shown =
      from === 'half' ? { leftPx: 0, topPx: 0, ...halfSize(piece) } : { leftPx, topPx, widthPx, heightPx };
    const frame: FramePlan = { from, window: shown, target: shown };
    const kernels = stripKernels({ ...cameraWork(piece, bin, frame), table: srgbTable, light: noLight });
    const fill = cameraLight(piece, bin, frame, kernels);
    const rebuild = rebuildRows(kernels, shown.widthPx, hints, bin, perPixel);
    // Where the strip's first pixel lies in the frame.
    const originX = from === 'half' ? samples.leftPx / 2 : window.leftPx;
    const originY = from === 'half' ? samples.topPx / 2 : window.topPx;
    const skip = from === 'half' ? { column: leftPx, row: topPx } : { column: 0, row: 0 };
    forEachStrip({ widthPx: shown.widthPx, heightPx: shown.heightPx }, (rowStart, rowEnd) => {
      if (rowEnd <= skip.row || rowStart >= skip.row + heightPx) return;
      fill(rowStart, rowEnd);
      rebuild(rowEnd - rowStart, rowStart + originY, originX);
      for (let row = Math.max(rowStart, skip.row); row < Math.min(rowEnd, skip.row + heightPx); row++) {
        const start = ((row - rowStart) * shown.widthPx + skip.column) * 3;
        to.set(kernels.strip.subarray(start, start + widthPx * 3), (row - skip.row) * widthPx * 3);
      }
    });
  };
}

/** The same of samples that are no 2x2 mosaic; those bring the rows of any window. */
function layoutWindow(
  mosaic: Mosaic,
  layout: RawLayout,
  bin: DevelopPlan['bin'],
  from: FramePlan['from'],
): (window: Region, to: Float32Array) => void {
  const saturation = Float64Array.from(bin.saturation);
  return (window, to) => {
    layoutRows(mosaic, layout, bin, { from, window })(0, window.heightPx, to);
    rebuildStrip(to, window.widthPx * window.heightPx, saturation);
  };
}

/** Begins at an even row and column, so that filters keep their places. */
function onFilters({ leftPx, topPx, widthPx, heightPx }: Region): Region {
  const left = leftPx & ~1;
  const top = topPx & ~1;
  return { leftPx: left, topPx: top, widthPx: widthPx + leftPx - left, heightPx: heightPx + topPx - top };
}

function pieceOf(mosaic: Mosaic, { leftPx, topPx, widthPx, heightPx }: Region): Mosaic {
  const values = new Uint16Array(widthPx * heightPx);
  for (let row = 0; row < heightPx; row++) {
    const start = (topPx + row) * mosaic.widthPx + leftPx;
    values.set(mosaic.values.subarray(start, start + widthPx), row * widthPx);
  }
  return { ...mosaic, values, widthPx, heightPx };
}

/** Balanced light to display light of the output space, in place. */
export function displayStep(
  mosaic: Mosaic,
  { bin, toWorking }: DevelopPlan,
  look: CompiledLook,
  space: LightSpace,
): (rgb: Float32Array, pixels: number) => void {
  const most = stripRows({ widthPx: 1, heightPx: Number.MAX_SAFE_INTEGER });
  const kernels: StripKernels = stripKernels({
    mosaic: { values: new Uint16Array(0), widthPx: 2, heightPx: 2 },
    bin,
    isHalf: false,
    pixelsMax: most,
    planeSamples: 0,
    widthPx: 1,
    light: lightPlan(mosaic, toWorking, look, space),
    table: srgbTable,
  });
  return (rgb, pixels) => {
    for (let at = 0; at < pixels; at += most) {
      const count = Math.min(most, pixels - at);
      kernels.strip.set(rgb.subarray(at * 3, (at + count) * 3));
      kernels.light(count);
      rgb.set(kernels.strip.subarray(0, count * 3), at * 3);
    }
  };
}

function falloffStep(
  falloffEv: number,
  size: Size,
  perPixel: 1 | 2,
): ((rgb: Float32Array, window: Region) => void) | null {
  if (falloffEv === 0) return null;
  const half = halfDiagonalPx(size);
  const k = falloffSteepness(falloffEv);
  return (rgb, { leftPx, topPx, widthPx, heightPx }) =>
    falloffRows(
      rgb,
      widthPx,
      heightPx,
      leftPx,
      topPx,
      size.widthPx / 2 / half,
      size.heightPx / 2 / half,
      perPixel / half,
      k,
      falloffEv < 0,
    );
}

const noLight = {
  toScene: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  curve: null,
  lookTable: null,
  toOutput: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  luminance: [0, 1, 0],
} as const;
