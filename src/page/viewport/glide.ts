import type { ZoomView } from './zoom-view.ts';

/** In this time two thirds of the way are gone: felt as following the hand, seen as a movement. */
const timeConstantMs = 55;
/** Nearer than this nobody sees a difference on any screen: scales as a ratio, places as a share of the picture. */
const arrivedRatio = 1.0005;
const arrivedShare = 1 / 20_000;

/**
 * The view on the way from one to another after some time: fast at first, slower as it comes near. The scale goes in
 * equal ratios and the middle along with its inverse, so that the one spot which lies under the same point in both views
 * lies there all the way.
 */
export function glided(from: ZoomView, to: ZoomView, elapsedMs: number): ZoomView {
  if (hasArrived(from, to)) return to;
  return between(from, to, 1 - Math.exp(-elapsedMs / timeConstantMs));
}

export function hasArrived(from: ZoomView, to: ZoomView): boolean {
  const ratio = from.scale / to.scale;
  return (
    Math.max(ratio, 1 / ratio) < arrivedRatio &&
    Math.abs(from.centreX - to.centreX) < arrivedShare &&
    Math.abs(from.centreY - to.centreY) < arrivedShare
  );
}

/**
 * `share` of the way. Under the point p a view shows the spot centre + p / scale; a spot that is the same in both views
 * stays where it is if the middle is linear in 1 / scale.
 */
export function between(from: ZoomView, to: ZoomView, share: number): ZoomView {
  const scale = from.scale * (to.scale / from.scale) ** share;
  const way = 1 / to.scale - 1 / from.scale;
  const part = Math.abs(way) < 1e-9 ? share : (1 / scale - 1 / from.scale) / way;
  return {
    scale,
    centreX: from.centreX + (to.centreX - from.centreX) * part,
    centreY: from.centreY + (to.centreY - from.centreY) * part,
  };
}
