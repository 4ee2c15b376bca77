import { expect, test } from 'vitest';
import { afterStep } from './zoom-step.ts';
import { wholeView, type ZoomStage } from './zoom-view.ts';

const stage: ZoomStage = {
  picture: { widthPx: 6000, heightPx: 4000 },
  free: { widthDevicePx: 1200, heightDevicePx: 800 },
};
const spot = { x: 0.7, y: 0.3 };
const pixels = { scale: 1, centreX: 0.5, centreY: 0.5 };

test('steps closer meet half, one and two to one, and end at four', () => {
  const scales: number[] = [];
  let view = wholeView(stage);
  for (let step = 0; step < 9; step += 1) {
    view = afterStep('closer', view, stage, spot) ?? view;
    scales.push(view.scale);
  }
  for (const plain of [0.5, 1, 2, 4]) expect(scales).toContain(plain);
  expect(scales.at(-1)).toBe(4);
});

test('steps away end at the whole picture', () => {
  let view = pixels;
  for (let step = 0; step < 9; step += 1) view = afterStep('farther', view, stage, spot) ?? view;
  expect(view.scale).toBeCloseTo(0.2, 9);
});

test('pixel for pixel goes to the spot last looked at, and from there back to the whole picture', () => {
  expect(afterStep('pixels', wholeView(stage), stage, spot)).toEqual({
    scale: 1,
    centreX: 0.7,
    centreY: 0.3,
  });
  expect(afterStep('pixels', pixels, stage, spot)).toBeNull();
  expect(afterStep('whole', pixels, stage, spot)).toBeNull();
});

test('an arrow moves the view its way by a sixth of what is seen', () => {
  const right = afterStep('right', pixels, stage, spot);
  expect(right?.centreX).toBeCloseTo(0.5 + 1200 / 6 / 6000, 9);
  expect(right?.centreY).toBe(0.5);
  expect(afterStep('up', pixels, stage, spot)?.centreY).toBeCloseTo(0.5 - 800 / 6 / 4000, 9);
});
