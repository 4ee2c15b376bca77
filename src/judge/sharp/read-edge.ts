import { edgeSamples, sampleNumbers } from '../kernels/edge-samples.ts';
import { edgeNumbers, fitEdge } from '../kernels/fit-edge.ts';
import { foldEdge } from '../kernels/fold-edge.ts';
import type { LightGrid } from '../light-grid.ts';
import { edgeResponse, frequencyAt, riseEnds } from './edge-response.ts';
import { type EdgeRise, edgeRise } from './edge-rise.ts';
import type { EdgePlace } from './find-edges.ts';

/** One edge as it was read. Everything holds the pixel's own aperture, since the samples do. */
export interface EdgeReading {
  /** Middle of the edge, pixels of the full-size grid. */
  readonly x: number;
  readonly y: number;
  /** Direction across the edge, radians from x towards y, 0 … π. */
  readonly angle: number;
  /** 10-90 % rise, px. */
  readonly widthPx: number;
  /** Standard deviation of the Gaussian that fits best, px, and of that figure. */
  readonly sigmaPx: number;
  readonly sigmaErrorPx: number;
  /** Cycles/pixel; null where the response does not fall to a half below 2 cycles/pixel. */
  readonly mtf50: number | null;
  /** Height of the edge against the noise of one sample. */
  readonly snr: number;
  /** Mean of both sides, share of saturation. */
  readonly light: number;
  readonly rise: EdgeRise;
}

/** A part of the picture about an edge, px. */
interface Window {
  readonly halfAcross: number;
  /** Two turns through the pixels' phases at 4 degrees of slant, where there is room. */
  readonly halfAlong: number;
  /** Of so many samples across and down one is taken: wide edges need no more. */
  readonly stride: number;
}
const windows: readonly [Window, ...Window[]] = [
  { halfAcross: 10, halfAlong: 16, stride: 1 },
  { halfAcross: 20, halfAlong: 16, stride: 1 },
  { halfAcross: 40, halfAlong: 24, stride: 2 },
  { halfAcross: 72, halfAlong: 40, stride: 4 },
  // Of a long movement only, and only where that is looked for.
  { halfAcross: 128, halfAlong: 64, stride: 8 },
];
/** For edges that stand close to others. */
const closeWindow: Window = { halfAcross: 6, halfAlong: 9, stride: 1 };
/** So many sigmas are to lie on both sides. */
const sigmasAcross = 4;

/** An edge lower than this against the noise of one sample is not told from it. */
const snrMin = 7;
/** Standard deviation of sigma against sigma. */
const sigmaErrorMax = 0.12;
/** What the edge leaves over beside noise, share of its height: a line, a corner, a second edge leave more. */
const misfitMax = 0.055;
/** Narrower than the aperture of one pixel (1/√12) is no edge that light has made. */
const sigmaMin = 0.27;
/** Light may rise or fall beside the edge by this share of its height, over so many pixels. */
const shadingMax = 0.5;
const shadedPx = 5;
/** A bend of more than this is no straight piece: a radius of 25 px. */
const bendMax = 0.04;
/** Turn between where slopes pointed and where the edge does. */
const turnMax = 0.35;
/** Beyond this share of saturation light is lost, and with it one side of the edge. */
const lightMax = 0.985;
const samplesMax = 20_000;

const samples = new Float64Array(samplesMax * sampleNumbers);
const edge = new Float64Array(edgeNumbers);
const errors = new Float64Array(edgeNumbers);

/**
 * Reads the edge at a place, or says null where there is no single straight edge that can be read. `long`: also one that is
 * as wide as only a long movement leaves it.
 */
export function readEdge(grid: LightGrid, place: EdgePlace, long = false): EdgeReading | null {
  const widest = windows.length - (long ? 1 : 2);
  let level = place.scale > 2 ? 1 : 0;
  let at: Standpoint = place;
  for (let tries = 0; tries < 4; tries++) {
    const window = windows[level] ?? windows[0];
    const found = fitAt(grid, at, window, tries === 0 ? 6 : 12);
    if (found === null) return tries === 0 && level === 0 ? readClose(grid, place) : null;
    const { sigma, moved, turned, next } = found;
    const wide = sigma * sigmasAcross > window.halfAcross;
    if (!wide && moved <= 1.5 && turned <= 0.05) {
      const read = finish(grid, window, found);
      return read === null && level === 0 && sigma * sigmasAcross <= closeWindow.halfAcross
        ? readClose(grid, next)
        : read;
    }
    if (wide && level === widest) return null;
    // Once more, about where the edge turned out to be.
    at = next;
    if (wide) level = Math.min(widest, Math.max(level + 1, levelFor(sigma)));
  }
  return null;
}

/** The same in a small window. */
function readClose(grid: LightGrid, place: Standpoint): EdgeReading | null {
  const first = fitAt(grid, place, closeWindow, 6);
  const found = first === null ? null : fitAt(grid, first.next, closeWindow, 12);
  if (found === null || found.moved > 1.5 || found.sigma * sigmasAcross > closeWindow.halfAcross) return null;
  return finish(grid, closeWindow, found);
}

interface Standpoint {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
}

/** `edge` and `errors` hold the fit itself. */
interface Fit {
  readonly count: number;
  readonly meanSquare: number;
  readonly sigma: number;
  readonly moved: number;
  readonly turned: number;
  /** Where the edge is. */
  readonly next: Standpoint;
}

function fitAt(grid: LightGrid, { x, y, angle }: Standpoint, window: Window, rounds: number): Fit | null {
  const [normalX, normalY] = [Math.cos(angle), Math.sin(angle)];
  const { halfAcross, halfAlong, stride } = window;
  const count = edgeSamples(
    ...([grid.values, grid.widthPx, grid.heightPx, grid.greenParity, grid.blacks] as const),
    ...([x, y, normalX, normalY, halfAcross, halfAlong, stride] as const),
    samples,
  );
  if (!startFrom(count, halfAcross)) return null;
  const meanSquare = fitEdge(samples, count, rounds, edge, errors);
  const [offset = 0, turn = 0, , sigma = 0] = edge;
  if (meanSquare < 0 || Math.abs(turn) > turnMax || Math.abs(offset) > halfAcross) return null;
  const next = { x: x + offset * normalX, y: y + offset * normalY, angle: angle - turn };
  return { count, meanSquare, sigma, moved: Math.abs(offset), turned: Math.abs(turn), next };
}

function levelFor(sigma: number): number {
  const found = windows.findIndex(({ halfAcross }) => halfAcross >= sigma * sigmasAcross);
  return found < 0 ? windows.length - 1 : found;
}

/** Unrest beside an edge that stands alone, share of its height. */
const unrestMax = 0.25;

/**
 * A first guess: levels from the outer quarters, an edge of middling width between. False where there is too little, or
 * too much beside an edge.
 */
function startFrom(count: number, halfAcross: number): boolean {
  if (count < 60) return false;
  const [before, behind] = [sideOf(count, -1, halfAcross / 2), sideOf(count, 1, halfAcross / 2)];
  // At the border of the picture one side may be missing.
  if (Math.min(before.count, behind.count) < count / 10) return false;
  const rise = behind.mean - before.mean;
  if (Math.max(before.deviation, behind.deviation) > unrestMax * Math.abs(rise)) return false;
  edge.set([0, 0, 0, halfAcross / 8, before.mean, rise, 0, 0]);
  return true;
}

function sideOf(
  count: number,
  sign: number,
  from: number,
): { readonly count: number; readonly mean: number; readonly deviation: number } {
  let [sum, squares, found] = [0, 0, 0];
  for (let at = 0; at < count * sampleNumbers; at += sampleNumbers) {
    if ((samples[at] ?? 0) * sign < from) continue;
    const value = samples[at + 2] ?? 0;
    sum += value;
    squares += value * value;
    found++;
  }
  const mean = sum / found;
  return { count: found, mean, deviation: Math.sqrt(Math.max(0, squares / found - mean * mean)) };
}

function finish(
  grid: LightGrid,
  { stride }: Window,
  { count, meanSquare, next: at }: Fit,
): EdgeReading | null {
  const [, , bend = 0, sigmaPx = 0, level = 0, rise = 0, slopeBefore = 0, slopeBehind = 0] = edge;
  const sigmaErrorPx = errors[3] ?? 0;
  const height = Math.abs(rise);
  if (sigmaPx < sigmaMin || Math.abs(bend) > bendMax || sigmaErrorPx > sigmaErrorMax * sigmaPx) return null;
  // Shading that is as strong as the edge is no shading: a bright line has a steep flank on each side.
  const shading = Math.max(Math.abs(slopeBefore), Math.abs(slopeBehind)) * Math.max(4 * sigmaPx, shadedPx);
  if (shading > shadingMax * height) return null;
  const brightest = Math.max(level, level + rise);
  if (brightest > lightMax * grid.saturation || Math.min(level, level + rise) < -0.05 * height) return null;
  const folded = foldDensely(count, stride, sigmaPx);
  if (folded === null) return null;
  const { binPx, rest, counts, noise } = folded;
  const measured = rest.slice();
  const snr = height / Math.sqrt(Math.max(noise, 1e-12));
  const misfit = Math.sqrt(Math.max(0, meanSquare - noise)) / height;
  if (snr < snrMin || misfit > misfitMax || withoutNoise(rest, counts, noise) > misfitMax * 0.6 * height)
    return null;
  const gauss = { sigmaPx, rise };
  const ends = riseEnds(gauss, rest, binPx);
  return {
    x: at.x,
    y: at.y,
    angle: (at.angle + 2 * Math.PI) % Math.PI,
    widthPx: ends.beforePx + ends.behindPx,
    sigmaPx,
    sigmaErrorPx,
    mtf50: frequencyAt(edgeResponse(gauss, rest, binPx), 0.5),
    snr,
    light: (level + rise / 2) / grid.saturation,
    rise: edgeRise(gauss, measured, counts, binPx, ends),
  };
}

interface Folded {
  readonly binPx: number;
  readonly rest: Float64Array;
  readonly counts: Float64Array;
  readonly noise: number;
}

/**
 * The profile of the rest in bins of a quarter of a pixel, as the standard has it, or wider where the edge is wide or its
 * samples lie at few places: level with the pixels there is one place to a pixel. Null where even the widest bins that the
 * edge allows are not all filled.
 */
function foldDensely(count: number, stride: number, sigmaPx: number): Folded | null {
  const widest = Math.max(0.25, 0.8 * sigmaPx);
  for (let binPx = Math.max(0.25 * stride, sigmaPx / 4); binPx <= widest; binPx *= 1.5) {
    const bins = 2 * Math.ceil((5 * sigmaPx + 2) / binPx) + 1;
    const rest = new Float64Array(bins);
    const counts = new Float64Array(bins);
    const noise = foldEdge(samples, count, edge, binPx, stride, rest, counts);
    if (noise < 0) return null;
    // The outermost may lie beyond what was looked at.
    const near = counts.subarray(Math.floor(bins * 0.15), Math.ceil(bins * 0.85));
    if (near.every((each) => each > 0)) return { binPx, rest, counts, noise };
  }
  return null;
}

/** Noise of a profile of some thirty bins has up to so many times its mean square. */
const noiseSpread = 1.6;

/**
 * Keeps of the rest what is not noise: by the share of its mean square that noise cannot explain. Returns the root of
 * what is kept of it.
 */
function withoutNoise(rest: Float64Array, counts: Float64Array, noise: number): number {
  let squares = 0;
  let explained = 0;
  let bins = 0;
  rest.forEach((value, bin) => {
    const count = counts[bin] ?? 0;
    if (count === 0) return;
    squares += value * value;
    explained += noise / count;
    bins++;
  });
  const kept = squares === 0 ? 0 : Math.max(0, 1 - (noiseSpread * explained) / squares);
  for (let bin = 0; bin < rest.length; bin++) rest[bin] = (rest[bin] ?? 0) * kept;
  return bins === 0 ? 0 : Math.sqrt((squares * kept) / bins);
}
