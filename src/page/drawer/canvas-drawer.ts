import { paintPart } from './paint-part.ts';
import type { DrawnPicture, PictureDrawer } from './picture-drawer.ts';
import { pictureToRect } from './picture-to-rect.ts';

/** A drawer on a plain canvas, in the widest space the screen can show. */
export function canvasDrawer(canvas: HTMLCanvasElement): PictureDrawer {
  const colourSpace = screenColourSpace();
  const context = canvas.getContext('2d', { colorSpace: colourSpace });
  if (context === null) throw new Error('expected a canvas that can be drawn on, got none');
  return {
    colourSpace,
    draw(picture, box) {
      sizeTo(canvas, box.widthDevicePx, box.heightDevicePx);
      paint(context, picture, box.widthDevicePx, box.heightDevicePx);
    },
    drawPart(part) {
      sizeTo(canvas, part.free.widthDevicePx, part.free.heightDevicePx);
      paintPart(context, part);
    },
  };
}

/** Display P3 where the screen covers it (Media Queries 4, `color-gamut`), else sRGB. */
export function screenColourSpace(): PredefinedColorSpace {
  return matchMedia('(color-gamut: p3)').matches ? 'display-p3' : 'srgb';
}

/** Setting the size clears a canvas even where nothing changes, so it is set only where it does. */
function sizeTo(canvas: HTMLCanvasElement, width: number, height: number): void {
  if (canvas.width !== width) canvas.width = width;
  if (canvas.height !== height) canvas.height = height;
}

function paint(
  context: CanvasRenderingContext2D,
  picture: DrawnPicture,
  widthDevicePx: number,
  heightDevicePx: number,
): void {
  const map = pictureToRect(picture, { leftDevicePx: 0, topDevicePx: 0, widthDevicePx, heightDevicePx });
  context.imageSmoothingEnabled = true;
  context.imageSmoothingQuality = 'high';
  context.setTransform(map.a, map.b, map.c, map.d, map.e, map.f);
  context.drawImage(picture.bitmap, 0, 0);
}
