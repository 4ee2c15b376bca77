import { applyMatrix, oklabToXyz, rgbSpaces, xyzToOklab } from '../../colour/index.ts';
import type { HueBand } from '../schema.ts';
import { hueTrust, hueWeight } from './hue-window.ts';
import type { Stage } from './stage.ts';

const { toXyz, fromXyz } = rgbSpaces.rec2020;

/**
 * Lightness, chroma and hue by bands of hue, in OKLCh (CSS Color 4, section 9). With w the band's window at the colour's
 * hue, t its trust (hue-window.ts), and sums over all bands,
 *
 *     L' = L + C t sum(w lightness)      C' = C max(0, 1 + t sum(w chroma))      h' = h + t sum(w turn)
 *
 * Lightness moves by the colour's own chroma, so that a band leaves greys alone. Our own formula.
 */
export function hueBandStage(bands: readonly HueBand[]): Stage {
  return (rgb) => {
    const [L, a, b] = xyzToOklab(applyMatrix(toXyz, rgb));
    const C = Math.hypot(a, b);
    const hue = Math.atan2(b, a);
    const trust = hueTrust(C);
    let lightness = 0;
    let chroma = 0;
    let turnDeg = 0;
    for (const band of bands) {
      const weight = trust * hueWeight(hue, band.hueDeg, band.reachDeg);
      lightness += weight * band.lightness;
      chroma += weight * band.chroma;
      turnDeg += weight * band.turnDeg;
    }
    const chromaOut = C * Math.max(0, 1 + chroma);
    const hueOut = hue + (turnDeg * Math.PI) / 180;
    return applyMatrix(
      fromXyz,
      oklabToXyz([L + C * lightness, chromaOut * Math.cos(hueOut), chromaOut * Math.sin(hueOut)]),
    );
  };
}

export function areNeutralBands(bands: readonly HueBand[]): boolean {
  return bands.every(({ lightness, chroma, turnDeg }) => lightness === 0 && chroma === 0 && turnDeg === 0);
}
