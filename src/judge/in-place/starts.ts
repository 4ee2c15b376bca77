import type { ShareBox } from '../../facts/index.ts';
import { logPolar } from '../kernels/log-polar.ts';
import { everyPlace } from '../kernels/mark-within.ts';
import { warpPlaces } from '../kernels/warp-plane.ts';
import type { Level } from './level.ts';
import { after, applyTo, type Similarity, similarityAbout } from './similarity.ts';
import { phasePeaks, type Square, spectrumOf } from './square.ts';

/** The two pictures at one size, made even, neither edge above {@link squarePx}. */
export interface StartPair {
  readonly reference: Level;
  readonly frame: Level;
  /** Spectrum of the reference under the window of its box: see {@link referenceSpectrum}. */
  readonly spectrum: Square;
}

export const squarePx = 256;

/** Made once for all starts. */
export function referenceSpectrum(reference: Level, box: ShareBox | null): Square {
  return spectrumOf(reference, box, squarePx);
}

/** The likeliest `count` shifts of the frame for a given turn and size: `guess`, shifted. */
export function shiftedStarts(
  { reference, frame, spectrum }: StartPair,
  guess: Similarity,
  count: number,
): Similarity[] {
  const laid = layOn(reference, frame, guess);
  const peaks = phasePeaks(spectrum, spectrumOf(laid, null, squarePx), count);
  return peaks.map(({ x, y }) => after(guess, { re: 1, im: 0, tx: x, ty: y }));
}

/** The frame as the reference would lie in it. */
function layOn(reference: Level, frame: Level, { re, im, tx, ty }: Similarity): Level {
  const { widthPx, heightPx } = reference;
  const places = everyPlace(widthPx * heightPx);
  const data = new Float32Array(places.length);
  warpPlaces(frame.data, frame.widthPx, frame.heightPx, places, widthPx, re, im, tx, ty, data);
  return { data, widthPx, heightPx };
}

/** Half a turn in so many rays; so many rings from the lowest frequency to the highest, cycles over the square. */
const rays = 256;
const rings = 256;
const lowest = 6;
const highest = 110;
const ringStep = (highest / lowest) ** (1 / (rings - 1));
/** Turns and sizes tried. */
const turnsTried = 5;
/** Further turned, or larger or smaller than this, it is another picture. */
const degreesMax = 45;
const scaleMax = 1.8;

/**
 * Turns and sizes that may fit, `nominal` turned and scaled about the middle: a shift does not touch the size of a spectrum,
 * a turn turns it, and a change of size moves it along the rings (Reddy and Chatterji, IEEE Transactions on Image
 * Processing 5, 1996).
 */
export function turnedStarts({ reference, frame, spectrum }: StartPair, nominal: Similarity): Similarity[] {
  const laid = layOn(reference, frame, nominal);
  const own = ringSpectrum(spectrum);
  const other = ringSpectrum(spectrumOf(laid, null, squarePx));
  const middle = { x: (reference.widthPx - 1) / 2, y: (reference.heightPx - 1) / 2 };
  return phasePeaks(own, other, turnsTried).flatMap(({ x, y }) => {
    const degrees = (180 * y) / rays;
    const scale = ringStep ** -x;
    if (Math.abs(degrees) > degreesMax || scale > scaleMax || scale < 1 / scaleMax) return [];
    // First turned where the reference lies, then laid on the frame.
    return [after(nominal, similarityAbout(degrees, scale, middle, middle))];
  });
}

/** The spectrum's size by rays (rows) and rings (columns), what all rays have in common taken off; and its spectrum. */
function ringSpectrum({ real, imaginary, size }: Square): Square {
  const sizes = new Float64Array(rays * rings);
  logPolar(real, imaginary, size, rays, rings, lowest, ringStep, sizes);
  const data = new Float32Array(rays * rings);
  for (let ring = 0; ring < rings; ring++) {
    let sum = 0;
    for (let ray = 0; ray < rays; ray++) sum += sizes[ray * rings + ring] ?? 0;
    // Rays go round, rings end: there the window is.
    const window = Math.sin((Math.PI * (ring + 0.5)) / rings) ** 2;
    for (let ray = 0; ray < rays; ray++) {
      data[ray * rings + ring] = ((sizes[ray * rings + ring] ?? 0) - sum / rays) * window;
    }
  }
  // No window over the rays, which go round: rows are taken as they are.
  return spectrumOf({ data, widthPx: rings, heightPx: rays }, wholeOf, squarePx);
}

/** So wide that its risen part covers everything. */
const wholeOf: ShareBox = { left: -1, top: -1, right: 2, bottom: 2 };

/** How far two similarities send the middle of a level apart, px. */
export function apartAtMiddle(a: Similarity, b: Similarity, { widthPx, heightPx }: Level): number {
  const middle = { x: (widthPx - 1) / 2, y: (heightPx - 1) / 2 };
  const [p, q] = [applyTo(a, middle), applyTo(b, middle)];
  return Math.hypot(p.x - q.x, p.y - q.y);
}
