import type { Orientation } from '../../facts/index.ts';
import type { PictureBox, SizeImagePx } from '../viewport/index.ts';

/** A bitmap with what is needed to put it upright into its box. */
export interface DrawnPicture {
  readonly bitmap: ImageBitmap;
  /** Still to be applied; 1 for what comes upright. */
  readonly orientation: Orientation;
  /** The upright picture at full size; the bitmap is cut to its shape. */
  readonly full: SizeImagePx;
}

/** Puts a picture on a canvas. A drawer holds no truth: it can be thrown away and made again at any time. */
export interface PictureDrawer {
  /** The colour space of the canvas's pixels. */
  readonly colourSpace: PredefinedColorSpace;
  /** Replaces what is there in one go; between two calls nothing is ever cleared to be seen. */
  draw(picture: DrawnPicture, box: PictureBox): void;
}
