import { whiteLevel } from './camera-model.ts';
import type { FrameSize } from './frame-size.ts';

/** Pixels of the sensor that leak: share of the width and of the height, raw steps more than they should have. */
const hotPixels: readonly (readonly [number, number, number])[] = [
  [0.3137, 0.2218, 520],
  [0.7411, 0.8093, 480],
];

/** They lie at the same places in every frame, as they do in a camera that has not been mapped out lately. */
export function addHotPixels(mosaic: Uint16Array, { widthPx, heightPx }: FrameSize): void {
  for (const [x, y, steps] of hotPixels) {
    const at = Math.floor(y * heightPx) * widthPx + Math.floor(x * widthPx);
    mosaic[at] = Math.min(whiteLevel, (mosaic[at] ?? 0) + steps);
  }
}
