import type { Size } from '../../../image/index.ts';
import type { Look } from '../../../look/index.ts';
import type { placeCanvas } from '../../drawer/place-canvas.ts';
import type { SizeCssPx } from '../../viewport/index.ts';
import type { CloseView } from './closely.ts';
import { placedSize } from './place-scene.ts';

/** A place of the picture, shares of its edges. */
export interface Centre {
  readonly x: number;
  readonly y: number;
}

/** In the middle of the free space, pixel for pixel. */
export function closeBox(
  { widthPx, heightPx }: CloseView,
  free: SizeCssPx,
  devicePixelRatio: number,
): Parameters<typeof placeCanvas>[1] {
  const [widthCssPx, heightCssPx] = [widthPx / devicePixelRatio, heightPx / devicePixelRatio];
  const middle = (whole: number, own: number): number =>
    Math.floor(((whole - own) / 2) * devicePixelRatio) / devicePixelRatio;
  return {
    leftCssPx: middle(free.widthCssPx, widthCssPx),
    topCssPx: middle(free.heightCssPx, heightCssPx),
    widthCssPx,
    heightCssPx,
  };
}

/** The middle of what is seen once it was drawn along by shares of its own edges. */
export function panned(
  view: CloseView,
  full: Size,
  geometry: Look['geometry'],
  right: number,
  down: number,
): Centre {
  const whole = placedSize(geometry, full);
  return {
    x: view.centre.x - (right * view.widthPx) / whole.widthPx,
    y: view.centre.y - (down * view.heightPx) / whole.heightPx,
  };
}
