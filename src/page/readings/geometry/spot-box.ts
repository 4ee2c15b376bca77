import { clamp } from './plot-scale.ts';

/** Shares of the picture. */
export interface SpotBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Edge of the square that is looked at, share of the picture's shorter side: room for a few edges, not for two things. */
const edgeShare = 0.12;

/** A square about a place, moved inside the picture. `shape`: width by height. */
export function spotBox(x: number, y: number, shape: number): SpotBox {
  const width = shape >= 1 ? edgeShare / shape : edgeShare;
  const height = shape >= 1 ? edgeShare : edgeShare * shape;
  const left = clamp(x - width / 2, 0, 1 - width);
  const top = clamp(y - height / 2, 0, 1 - height);
  return { left, top, right: left + width, bottom: top + height };
}
