import type { Orientation } from '../../facts/index.ts';
import type { PictureBox, RectDevicePx, SizeDevicePx, SizeImagePx, Tile } from '../viewport/index.ts';

/** A bitmap with what is needed to put it upright into its box. */
export interface DrawnPicture {
  readonly bitmap: ImageBitmap;
  /** Still to be applied; 1 for what comes upright. */
  readonly orientation: Orientation;
  /** The upright picture at full size; the bitmap is cut to its shape. */
  readonly full: SizeImagePx;
}

/** A part of the picture at full size, pixel for pixel. */
export interface DrawnTile {
  readonly bitmap: ImageBitmap;
  readonly tile: Tile;
}

/** What is seen of a picture that is larger than the space for it. */
export interface DrawnPart {
  readonly free: SizeDevicePx;
  /** Where all of the picture lies, from the left top of the free space. */
  readonly place: RectDevicePx;
  readonly whole: DrawnPicture;
  /** Laid over the whole as far as they are here. */
  readonly tiles: readonly DrawnTile[];
  /** The tiles are all there are to be seen: what lies below need not be drawn, which is half the time. */
  readonly covered: boolean;
}

/** Puts a picture on a canvas. A drawer holds no truth: it can be thrown away and made again at any time. */
export interface PictureDrawer {
  /** The colour space of the canvas's pixels. */
  readonly colourSpace: PredefinedColorSpace;
  /** Replaces what is there in one go; between two calls nothing is ever cleared to be seen. */
  draw(picture: DrawnPicture, box: PictureBox): void;
  /** The same for a part; the canvas is as large as the free space, and clear where there is no picture. */
  drawPart(part: DrawnPart): void;
}
