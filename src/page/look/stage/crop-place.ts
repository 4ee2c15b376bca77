import { invertMatrix } from '../../../colour/index.ts';
import type { Size } from '../../../image/index.ts';
import { type Look, moved, placeOf, sharesToOriginal } from '../../../look/index.ts';

type Geometry = Look['geometry'];
export type Crop = NonNullable<Geometry['crop']>;

/** Edges as shares of the picture as it is without its crop. */
export interface CropBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** A corner of the frame: which way it lies from the middle. */
export interface Corner {
  readonly x: -1 | 1;
  readonly y: -1 | 1;
}

const sizeMin = 0.05;

export function uncropped(geometry: Geometry): Geometry {
  return geometry.crop === null ? geometry : { ...geometry, crop: null };
}

/** Where the crop lies. It may reach beyond the picture without it, whose ratio is another. */
export function cropBox(geometry: Geometry, full: Size): CropBox {
  const whole = placeOf(uncropped(geometry), full.widthPx, full.heightPx);
  const cut = placeOf(geometry, full.widthPx, full.heightPx);
  const back = invertMatrix(whole.toOriginal);
  if (back === null) return { left: 0, top: 0, right: 1, bottom: 1 };
  const share = (x: number, y: number): readonly [number, number] => {
    const [toX, toY] = moved(back, moved(cut.toOriginal, [x, y]));
    return [toX / whole.widthPx, toY / whole.heightPx];
  };
  const [left, top] = share(0, 0);
  const [right, bottom] = share(cut.widthPx, cut.heightPx);
  return { left, top, right, bottom };
}

/** The crop with its middle by so much elsewhere, shares of the picture without it; never beyond its edges. */
export function movedCrop(geometry: Geometry, full: Size, right: number, down: number): Crop | null {
  const { crop } = geometry;
  if (crop === null) return null;
  const box = cropBox(geometry, full);
  const [byX, byY] = [within(right, box.left, box.right), within(down, box.top, box.bottom)];
  return centred(geometry, full, crop, (box.left + box.right) / 2 + byX, (box.top + box.bottom) / 2 + byY);
}

/** The crop with a corner as near to a place as its ratio lets it come; the corner across stays where it is. */
export function sizedCrop(geometry: Geometry, full: Size, corner: Corner, x: number, y: number): Crop | null {
  const { crop } = geometry;
  if (crop === null) return null;
  const box = cropBox(geometry, full);
  const [width, height] = [box.right - box.left, box.bottom - box.top];
  const [fromX, fromY] = [corner.x > 0 ? box.left : box.right, corner.y > 0 ? box.top : box.bottom];
  // The mean of what either direction asks for.
  const wanted = ((corner.x * (x - fromX)) / width + (corner.y * (y - fromY)) / height) / 2;
  const roomX = (corner.x > 0 ? 1 - fromX : fromX) / width;
  const roomY = (corner.y > 0 ? 1 - fromY : fromY) / height;
  const most = Math.max(1, Math.min(1 / crop.size, roomX, roomY));
  const by = Math.min(Math.min(most, 1 / crop.size), Math.max(sizeMin / crop.size, wanted));
  return centred(
    geometry,
    full,
    { ...crop, size: rounded(crop.size * by) },
    fromX + (corner.x * by * width) / 2,
    fromY + (corner.y * by * height) / 2,
  );
}

/** The crop larger or smaller about its own middle. */
export function scaledCrop({ crop }: Geometry, by: number): Crop | null {
  if (crop === null) return null;
  return { ...crop, size: rounded(Math.min(1, Math.max(sizeMin, crop.size * by))) };
}

/** So far of a step that what lies from `from` to `to` stays between 0 and 1; what lies beyond may come back. */
function within(step: number, from: number, to: number): number {
  return Math.min(Math.max(0, 1 - to), Math.max(Math.min(0, -from), step));
}

function centred(geometry: Geometry, full: Size, crop: Crop, x: number, y: number): Crop {
  const [centreX, centreY] = moved(sharesToOriginal(uncropped(geometry), full), [x, y]);
  return { ...crop, centreX: rounded(held(centreX)), centreY: rounded(held(centreY)) };
}

function held(share: number): number {
  return Math.min(1, Math.max(0, share));
}

/** A ten-thousandth of the picture is less than a pixel of what is shown. */
function rounded(share: number): number {
  return Math.round(share * 1e4) / 1e4;
}
