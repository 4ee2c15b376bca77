import type { EdgeReading } from '../sharp/read-edge.ts';

/**
 * Thirty edges whose normals lie evenly from `from` to `to` degrees, blurred by a Gaussian (a rise of 2.5631 sigma) and moved
 * by `lengthPx` along `degrees` (0.8 L along it).
 */
export function movedEdges(
  sigmaPx: number,
  lengthPx: number,
  degrees: number,
  from = 0,
  to = 180,
): EdgeReading[] {
  return Array.from({ length: 30 }, (_, k) => {
    const angle = ((from + ((to - from) * (k + 0.5)) / 30) * Math.PI) / 180;
    const along = 0.8 * lengthPx * Math.cos(angle - (degrees * Math.PI) / 180);
    // Photographed edges differ: every third is a little softer.
    const sigma = (Math.hypot(2.5631 * sigmaPx, along) / 2.5631) * (k % 3 === 0 ? 1.1 : 1);
    return {
      x: k,
      y: k,
      angle,
      widthPx: sigma * 2.5631,
      sigmaPx: sigma,
      sigmaErrorPx: 0.03 * sigma,
      mtf50: 0.1874 / sigma,
      snr: 40,
      light: 0.3,
      rise: { stepPx: 0.25, heights: new Float64Array(0), tenPx: 0, ninetyPx: 0 },
    };
  });
}
