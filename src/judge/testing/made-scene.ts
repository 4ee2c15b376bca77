import type { HalfPlane } from '../half-plane.ts';
import { applyTo, type Similarity } from '../in-place/similarity.ts';
import { gaussian } from './made-light.ts';

/** A disc with a soft rim: places in pixels of the full-size frame from its middle. */
export interface Disc {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  /** Of the rim, from light to dark, px. */
  readonly rim: number;
  /** Share of light that is let through, > 0. */
  readonly through: number;
}

/** Discs strewn over a frame and a little beyond. */
export function strewnDiscs(widthPx: number, heightPx: number, count: number, seed: number): Disc[] {
  const random = gaussian(seed);
  const even = (): number => {
    const value = random() * 97.13;
    return value - Math.floor(value);
  };
  return Array.from({ length: count }, () => ({
    x: (even() - 0.5) * 1.3 * widthPx,
    y: (even() - 0.5) * 1.3 * heightPx,
    radius: (0.006 + 0.03 * even()) * widthPx,
    rim: 4 + 8 * even(),
    through: 2 ** (4 * (even() - 0.5)),
  }));
}

export interface MadeView {
  /** Where the scene lies in the frame, about its middle. */
  readonly moved?: Similarity;
  readonly ev?: number;
  /** Standard deviation of a sample's noise at full light, share of saturation; it falls with the root of the light. */
  readonly noise?: number;
  readonly seed?: number;
}

/** Light without discs, share of saturation, at 0 EV. */
export const madeGround = 0.12;

/**
 * Half-size light of discs, exact by construction: no picture is resampled, the discs themselves are moved. Saturates at 1.
 * `widthPx`, `heightPx`: of the full-size frame, even.
 */
export function madeScene(
  discs: readonly Disc[],
  widthPx: number,
  heightPx: number,
  { moved = { re: 1, im: 0, tx: 0, ty: 0 }, ev = 0, noise = 0, seed = 1 }: MadeView = {},
): HalfPlane {
  const [across, down] = [widthPx / 2, heightPx / 2];
  const light = new Float64Array(across * down).fill(madeGround * 2 ** ev);
  const scale = Math.hypot(moved.re, moved.im);
  for (const disc of discs) {
    const { x, y } = applyTo(moved, disc);
    shade(light, across, down, {
      x: x + (widthPx - 1) / 2,
      y: y + (heightPx - 1) / 2,
      radius: disc.radius * scale,
      rim: disc.rim * scale,
      through: disc.through,
    });
  }
  const random = gaussian(seed);
  const data = Float32Array.from(light, (value) => {
    const stray = noise === 0 ? 0 : noise * Math.sqrt(Math.min(1, value) + 0.01) * random();
    return Math.max(0, Math.min(1, value + stray));
  });
  return { data, widthPx: across, heightPx: down };
}

/** `disc`: places in pixels of the full-size frame from its first one. */
function shade(light: Float64Array, across: number, down: number, disc: Disc): void {
  const reach = disc.radius + 4 * disc.rim;
  const from = (middle: number): number => Math.max(0, Math.floor((middle - reach) / 2));
  const to = (middle: number, end: number): number => Math.min(end, Math.ceil((middle + reach) / 2));
  const stops = Math.log2(disc.through);
  const [inner, outer] = [disc.radius - 4 * disc.rim, reach];
  for (let row = from(disc.y); row < to(disc.y, down); row++) {
    const y = 2 * row + 0.5 - disc.y;
    for (let column = from(disc.x); column < to(disc.x, across); column++) {
      const x = 2 * column + 0.5 - disc.x;
      const distance = Math.sqrt(x * x + y * y);
      if (distance >= outer) continue;
      const at = row * across + column;
      // Beyond four rims the tanh is 1 to seven digits.
      const through =
        distance <= inner
          ? disc.through
          : 2 ** (stops * (0.5 - 0.5 * Math.tanh((2 * (distance - disc.radius)) / disc.rim)));
      light[at] = (light[at] ?? 0) * through;
    }
  }
}
