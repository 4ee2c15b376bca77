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

/** Shapes that differ by less than this share are one shape, rounded to whole pixels. */
const sameShapeShare = 0.004;

/** Where the reference lies: it keeps its shape and fills the picture, middle on middle, as its place is measured. */
export function fittedRect(
  rect: LaidRect,
  { width, height }: { readonly width: number; readonly height: number },
): LaidRect {
  const [across, down] = [rect.width / width, rect.height / height];
  if (Math.abs(across / down - 1) < sameShapeShare) return rect;
  const scale = Math.min(across, down);
  const [wide, high] = [scale * width, scale * height];
  return {
    left: rect.left + (rect.width - wide) / 2,
    top: rect.top + (rect.height - high) / 2,
    width: wide,
    height: high,
  };
}
