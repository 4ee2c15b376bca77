import {
  fitBox,
  placeOf,
  type SizeCssPx,
  type SizeImagePx,
  type ZoomStage,
  type ZoomView,
} from '../viewport/index.ts';
import type { LaidRect } from './laid-pen.ts';

/** Where the picture lies in the free space, as its own painter places it. */
export function rectOf(
  view: ZoomView | null,
  stage: ZoomStage | null,
  picture: SizeImagePx,
  free: SizeCssPx,
  unit: number,
): LaidRect {
  if (view !== null && stage !== null) {
    const at = placeOf(view, stage);
    return {
      left: at.leftDevicePx,
      top: at.topDevicePx,
      width: at.widthDevicePx,
      height: at.heightDevicePx,
    };
  }
  const box = fitBox(picture, free, unit);
  return {
    left: box.leftCssPx * unit,
    top: box.topCssPx * unit,
    width: box.widthDevicePx,
    height: box.heightDevicePx,
  };
}
