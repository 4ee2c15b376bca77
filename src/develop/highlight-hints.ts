import type { Vector3 } from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import { gatherHints, hintLost, noteLost, sumsOfCell } from './kernels/hint-highlights.ts';
import { type BinPlan, binNumbers } from './plan.ts';
import type { FramePlan } from './plan-frame.ts';
import { hintedLight } from './reference.ts';
import type { FillStrip } from './strip-kernels.ts';

/**
 * What colour highlights that lost a channel had, most likely, as a grid over the frame: light that lost nothing is looked for
 * beside them, and the colour is handed on inwards from cell to cell as long as it fits and the light goes on without a jump.
 * A lamp's glow rises evenly to where it is lost; a white window in an orange wall is much brighter than the wall right where
 * it begins, and takes nothing from it.
 */
export interface HighlightHints {
  readonly cellsAcross: number;
  readonly cellsDown: number;
  /**
   * Five numbers a cell: red, green, blue of balanced camera light, adding up to 1 (0 where nothing is known); how far that is
   * believed of the cell's lost light, 0 or 1; whether it has any, 0 or 1.
   */
  readonly cells: Float32Array;
}

/** Blocks along the edge of a cell: 16 samples, about as far as light changes over the foot of a highlight. */
const blocks = 8;

/** Most times that light may rise from a cell to the next, and still be the same light. */
const riseMost = 1.7;

/** How far in colour is handed on, cells: 384 samples. Light this far from all that is known is white. */
const stepsMost = 24;

/** By the samples they were found in: parts of one frame are asked for many times, and finding looks at every sample. */
const found = new WeakMap<Uint16Array, { readonly key: string; readonly hints: HighlightHints | null }>();

/** Those of a 2x2 mosaic, found once for its samples and balance; other layouts have none. */
export function highlightHints(mosaic: Mosaic, bin: BinPlan): HighlightHints | null {
  if (mosaic.layout !== undefined) return null;
  const key = `${mosaic.widthPx} ${binNumbers(bin).join(' ')}`;
  const before = found.get(mosaic.values);
  if (before?.key === key) return before.hints;
  const hints = findHighlightHints(mosaic, bin);
  found.set(mosaic.values, { key, hints });
  return hints;
}

/** Null where no channel is lost, or no colour of one is known. */
export function findHighlightHints(mosaic: Mosaic, bin: BinPlan): HighlightHints | null {
  const { values, widthPx, heightPx, whiteLevel, blackLevels } = mosaic;
  const cellsAcross = Math.ceil((widthPx >> 1) / blocks);
  const cellsDown = Math.ceil((heightPx >> 1) / blocks);
  const sums = new Float32Array(cellsAcross * cellsDown * sumsOfCell);
  const range = Float64Array.from(blackLevels, (black) => whiteLevel - black);
  const lost = gatherHints(values, widthPx, heightPx, binNumbers(bin), range, blocks, cellsAcross, sums);
  if (lost === 0) return null;
  const known = new Map<number, Light>();
  const open = new Map<number, Light>();
  for (let cell = 0; cell < cellsAcross * cellsDown; cell++) {
    const whole = meanOf(sums, cell * sumsOfCell);
    if (whole !== null) known.set(cell, whole);
    const part = meanOf(sums, cell * sumsOfCell + 4);
    if (part !== null) open.set(cell, part);
  }
  const believed = handedOn(known, open, cellsAcross, cellsDown, bin.saturation);
  if (believed.size === 0) return null;
  const cells = new Float32Array(cellsAcross * cellsDown * 5);
  for (const [cell, light] of [...known, ...believed]) {
    const sum = light[0] + light[1] + light[2];
    cells.set(sum > 0 ? light.map((value) => value / sum) : [0, 0, 0], cell * 5);
  }
  for (const cell of open.keys()) cells.set([believed.has(cell) ? 1 : 0, 1], cell * 5 + 3);
  return { cellsAcross, cellsDown, cells };
}

/** Balanced camera light of a cell; of lost light, with what it is thought to have been. */
type Light = Vector3;

function meanOf(sums: Float32Array, at: number): Light | null {
  const weight = sums[at + 3] ?? 0;
  if (weight <= 0) return null;
  const of = (channel: 0 | 1 | 2): number => (sums[at + channel] ?? 0) / weight;
  return [of(0), of(1), of(2)];
}

/**
 * The colours that cells of lost light take from their neighbours, or from light of their own that lost nothing. Step by step
 * inwards: what was believed in one step is handed on in the next.
 */
function handedOn(
  known: ReadonlyMap<number, Light>,
  open: ReadonlyMap<number, Light>,
  cellsAcross: number,
  cellsDown: number,
  saturation: Vector3,
): ReadonlyMap<number, Light> {
  const believed = new Map<number, Light>();
  let waiting = [...open];
  for (let step = 0; step < stepsMost; step++) {
    const found: (readonly [number, Light])[] = [];
    const still: typeof waiting = [];
    for (const entry of waiting) {
      const [cell, seen] = entry;
      const taken = around(cell, cellsAcross, cellsDown).flatMap((near) =>
        [known.get(near), believed.get(near)].flatMap((light) => {
          const told = light === undefined ? null : toldBy(seen, light, saturation);
          return told === null ? [] : [told];
        }),
      );
      if (taken.length === 0) still.push(entry);
      else found.push([cell, mean(taken)]);
    }
    if (found.length === 0) break;
    for (const [cell, light] of found) believed.set(cell, light);
    waiting = still;
  }
  return believed;
}

/** What a cell's light was if it had the colour of a neighbour's; null where that does not fit, or would be a jump. */
function toldBy(seen: Light, light: Light, saturation: Vector3): Light | null {
  const hint = hintedLight(seen, saturation, light);
  if (hint === null || hint.trust < 0.5) return null;
  return hint.scale > riseMost ? null : hint.told;
}

function mean(lights: readonly Light[]): Light {
  const of = (channel: 0 | 1 | 2): number =>
    lights.reduce((sum, light) => sum + light[channel], 0) / lights.length;
  return [of(0), of(1), of(2)];
}

/** A cell and its neighbours. */
function around(cell: number, across: number, down: number): number[] {
  const row = Math.floor(cell / across);
  const column = cell % across;
  const found: number[] = [];
  for (let y = Math.max(0, row - 1); y <= Math.min(down - 1, row + 1); y++)
    for (let x = Math.max(0, column - 1); x <= Math.min(across - 1, column + 1); x++)
      found.push(y * across + x);
  return found;
}

/** Rebuilds the highlights of rows that lie in the strip, the first of them at `row` and `left` of the frame at its size. */
export type RebuildRows = (rows: number, row: number, left: number) => void;

/**
 * Highlights from the pixel alone by `rebuild`, and then by the hints of the frame. `perPixel`: samples along a pixel's edge,
 * 1 at full size, 2 at half.
 */
export function rebuildRows(
  kernels: { readonly strip: Float32Array; rebuild(pixels: number): void },
  widthPx: number,
  hints: HighlightHints | null,
  { saturation }: BinPlan,
  perPixel: 1 | 2,
): RebuildRows {
  if (hints === null) return (rows) => kernels.rebuild(rows * widthPx);
  const { strip } = kernels;
  const { cells, cellsAcross, cellsDown } = hints;
  const most = Math.floor(strip.length / 3);
  const at = new Int32Array(most);
  const light = new Float32Array(most * 3);
  const limits = Float64Array.from(saturation);
  // Samples to cells whose middles are whole numbers.
  const perCell = 2 * blocks;
  const place = (pixel: number): number => ((pixel + 0.5) * perPixel) / perCell - 0.5;
  return (rows, row, left) => {
    const noted: number[] = [];
    for (let line = 0; line < rows; line++) {
      const from = line * widthPx;
      noted.push(noteLost(strip, from * 3, widthPx, limits, at.subarray(from), light.subarray(from * 3)));
    }
    kernels.rebuild(rows * widthPx);
    noted.forEach((count, line) => {
      if (count === 0) return;
      const from = line * widthPx;
      const y = place(row + line);
      hintLost(
        strip,
        from * 3,
        count,
        at.subarray(from),
        light.subarray(from * 3),
        limits,
        cells,
        cellsAcross,
        cellsDown,
        place(left),
        perPixel / perCell,
        y,
      );
    });
  };
}

/** The same for `cameraLight`: what rebuilds the strips of a frame's picture. */
export function rebuildOf(
  kernels: { readonly strip: Float32Array; rebuild(pixels: number): void },
  mosaic: Mosaic,
  bin: BinPlan,
): (frame: FramePlan) => FillStrip {
  return ({ from, window }) => {
    const rebuild = rebuildRows(
      kernels,
      window.widthPx,
      highlightHints(mosaic, bin),
      bin,
      from === 'half' ? 2 : 1,
    );
    return (rowStart, rowEnd) => rebuild(rowEnd - rowStart, rowStart + window.topPx, window.leftPx);
  };
}
