import type { LightGrid } from '../light-grid.ts';
import { gaussian, normal } from './made-light.ts';

/** Edges in all directions, seen by a lens that blurs by a Gaussian and moved steadily while the shutter was open. */
export interface MadeMovement {
  /** Of the lens, px; the pixel's own aperture is not in it. */
  readonly sigmaPx: number;
  readonly lengthPx: number;
  /** Way of the movement, degrees from x towards y. */
  readonly degrees: number;
  /** Standard deviation of a sample's noise, steps; the edges are 8000 high. */
  readonly noise: number;
}

const [across, down, tilePx] = [6, 4, 240] as const;
const fullWithinPx = 60;

/**
 * Twenty-four edges, each in the middle of a square of its own, turned by 7.5 degrees from one to the next. Across an edge
 * whose normal lies at θ, a movement of L px along φ is a box of w = L |cos(θ - φ)|: its light is the mean of the Gaussian
 * edge over that box, (G(d + w/2) - G(d - w/2)) / w with G(x) = x Φ(x/σ) + σ φ(x/σ), the integral of Φ. Without lens blur
 * it rises from 10 to 90 % over 0.8 w, and its MTF is |sinc(f w)|.
 */
export function madeMovement({ sigmaPx, lengthPx, degrees, noise }: MadeMovement): LightGrid {
  const [widthPx, heightPx] = [across * tilePx, down * tilePx];
  const values = new Uint16Array(widthPx * heightPx);
  const random = gaussian(Math.round(100 * lengthPx + degrees) + 3);
  const integral = (x: number): number => {
    const t = x / sigmaPx;
    return x * normal(t) + (sigmaPx * Math.exp(-0.5 * t * t)) / Math.sqrt(2 * Math.PI);
  };
  for (let tile = 0; tile < across * down; tile++) {
    const angle = ((tile + 0.4) * Math.PI) / (across * down);
    const box = Math.max(1e-3, lengthPx * Math.abs(Math.cos(angle - (degrees * Math.PI) / 180)));
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const [left, top] = [(tile % across) * tilePx, Math.floor(tile / across) * tilePx];
    for (let y = 0; y < tilePx; y++) {
      for (let x = 0; x < tilePx; x++) {
        const d = (x - tilePx / 2 + 0.3) * c + (y - tilePx / 2 - 0.2) * s;
        const light = (integral(d + box / 2) - integral(d - box / 2)) / box;
        const shown = (light - 0.5) * fadeAt(Math.hypot(x - tilePx / 2, y - tilePx / 2));
        values[(top + y) * widthPx + left + x] = Math.round(6000 + 8000 * shown + noise * random());
      }
    }
  }
  return { values, widthPx, heightPx, greenParity: 1, blacks: new Float64Array(2), saturation: 15_000 };
}

/** Edges fade out before the next square begins: where squares met there would be edges that nothing has moved. */
function fadeAt(fromMiddlePx: number): number {
  const share = (fromMiddlePx - fullWithinPx) / (tilePx / 2 - fullWithinPx);
  return share <= 0 ? 1 : share >= 1 ? 0 : 0.5 + 0.5 * Math.cos(Math.PI * share);
}
