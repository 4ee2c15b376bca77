/** A size in CSS pixels. */
export interface SizeCssPx {
  readonly widthCssPx: number;
  readonly heightCssPx: number;
}

/** A size in pixels of the upright picture at full size. */
export interface SizeImagePx {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Where a picture lies inside the free space: CSS pixels from its left top, and the canvas's own pixels. */
export interface PictureBox {
  readonly leftCssPx: number;
  readonly topCssPx: number;
  readonly widthCssPx: number;
  readonly heightCssPx: number;
  readonly widthDevicePx: number;
  readonly heightDevicePx: number;
}

/**
 * The largest box of the picture's shape inside the free space, centred, its edges on whole device pixels so that no
 * row of the picture is smeared over two. Depends on the full size only, never on the bitmap at hand: that is what
 * keeps the box still while a first view gives way to the rendering.
 */
export function fitBox(picture: SizeImagePx, free: SizeCssPx, devicePixelRatio: number): PictureBox {
  const freeWidth = Math.max(1, Math.floor(free.widthCssPx * devicePixelRatio));
  const freeHeight = Math.max(1, Math.floor(free.heightCssPx * devicePixelRatio));
  const scale = Math.min(freeWidth / picture.widthPx, freeHeight / picture.heightPx);
  const widthDevicePx = clamp(Math.round(picture.widthPx * scale), freeWidth);
  const heightDevicePx = clamp(Math.round(picture.heightPx * scale), freeHeight);
  return {
    leftCssPx: Math.floor((freeWidth - widthDevicePx) / 2) / devicePixelRatio,
    topCssPx: Math.floor((freeHeight - heightDevicePx) / 2) / devicePixelRatio,
    widthCssPx: widthDevicePx / devicePixelRatio,
    heightCssPx: heightDevicePx / devicePixelRatio,
    widthDevicePx,
    heightDevicePx,
  };
}

const clamp = (value: number, most: number): number => Math.min(Math.max(1, value), most);

/** A part of the upright picture, in pixels of the bitmap at hand. */
export interface Crop {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/**
 * The middle part of a bitmap that has the box's shape. Cameras pad small previews with black bars to 4:3; cutting to
 * the full picture's shape takes the bars away and keeps what is shown where the rendering will show it.
 */
export function cropToShape(bitmap: SizeImagePx, shape: SizeImagePx): Crop {
  const wanted = shape.widthPx / shape.heightPx;
  const width = Math.min(bitmap.widthPx, bitmap.heightPx * wanted);
  const height = Math.min(bitmap.heightPx, bitmap.widthPx / wanted);
  return { left: (bitmap.widthPx - width) / 2, top: (bitmap.heightPx - height) / 2, width, height };
}

/** Renderings are asked for in steps of this width, so that many windows share the station's cache. */
export const pictureWidthStepPx = 320;

/** The station refuses to be asked for less; of a smaller picture it sends what there is. */
const smallestAskPx = 16;

/** The width to ask the station for, pixels: enough for the box, never more than the picture has. */
export function widthToAsk(box: PictureBox, picture: SizeImagePx): number {
  const stepped = Math.ceil(box.widthDevicePx / pictureWidthStepPx) * pictureWidthStepPx;
  return Math.max(smallestAskPx, Math.min(stepped, picture.widthPx));
}
