import { movedBy, pixelView, type Spot, type ZoomStage, type ZoomView, zoomedAbout } from './zoom-view.ts';

/** What one press of a key or a button does to the view. */
export type ZoomStep = 'closer' | 'farther' | 'pixels' | 'whole' | 'left' | 'right' | 'up' | 'down';

/** Two presses double. */
const stepFactor = Math.SQRT2;
/** Share of the free space that one press of an arrow moves over. */
const stepShare = 1 / 6;
/** Scales that steps meet instead of passing them by; a step lands within a sixth of one. */
const plainScales: readonly number[] = [0.5, 1, 2, 4];
const plainWithin = 0.16;

/** Which way the picture goes; the view goes the other. */
const directions: Readonly<Record<'left' | 'right' | 'up' | 'down', readonly [number, number]>> = {
  left: [1, 0],
  right: [-1, 0],
  up: [0, 1],
  down: [0, -1],
};

/**
 * The view after a step from another one; null for the whole picture. `lookedAt` is the spot that was last looked at
 * pixel for pixel, where `pixels` goes back to.
 */
export function afterStep(step: ZoomStep, from: ZoomView, stage: ZoomStage, lookedAt: Spot): ZoomView | null {
  const { widthDevicePx, heightDevicePx } = stage.free;
  const middle = { xDevicePx: widthDevicePx / 2, yDevicePx: heightDevicePx / 2 };
  switch (step) {
    case 'closer':
      return zoomedAbout(from, middle, plainScale(from.scale * stepFactor), stage);
    case 'farther':
      return zoomedAbout(from, middle, plainScale(from.scale / stepFactor), stage);
    case 'pixels':
      return from.scale === 1 ? null : pixelView(lookedAt, stage);
    case 'whole':
      return null;
    default: {
      const [x, y] = directions[step];
      const by = { xDevicePx: x * widthDevicePx * stepShare, yDevicePx: y * heightDevicePx * stepShare };
      return movedBy(from, by, stage);
    }
  }
}

function plainScale(scale: number): number {
  return plainScales.find((plain) => Math.abs(scale / plain - 1) < plainWithin) ?? scale;
}
