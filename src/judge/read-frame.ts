import type { FrameReadings, Mosaic, ShareBox, SpotTeller } from '../facts/index.ts';
import type { Rgb8 } from '../image/index.ts';
import { type ColourWishes, readColoursOfMosaic, readColoursOfPicture } from './colour/read-colour.ts';
import { readExposedMosaic, readExposedPicture } from './exposed/read-exposed.ts';
import { halfPlaneOf } from './half-plane.ts';
import { placeOfHalfPlane, placeOfLight } from './in-place/place-plane.ts';
import { type PlaceReference, readInPlace } from './in-place/read-in-place.ts';
import { greenOfMosaic, lightOfPicture } from './light-grid.ts';
import { readSharp } from './sharp/read-sharp.ts';
import { storedBox, uprightSharp } from './sharp/upright-sharp.ts';

/** What is wanted of one frame's pixels. Boxes are of the upright picture. */
export interface ReadingWishes {
  readonly spot: (ShareBox & { readonly teller: Exclude<SpotTeller, 'sharpest'> }) | null;
  /** From one row of the sensor to the next, seconds; null where nobody knows. */
  readonly rowTimeS: number | null;
  /** What its place is held against; null for nothing. */
  readonly reference: PlaceReference | null;
  /** A target to look for; null where nobody asks for one, which saves the search. */
  readonly target: ColourWishes | null;
}

export const noWishes: ReadingWishes = {
  spot: null,
  rowTimeS: null,
  reference: null,
  target: null,
};

/** Every reading of a raw. The mosaic is only read. */
export function readMosaic(mosaic: Mosaic, wishes: ReadingWishes): FrameReadings {
  const grid = greenOfMosaic(mosaic);
  const plane = halfPlaneOf(grid);
  const { orientation } = mosaic;
  const spot = wishes.spot === null ? null : storedBox(wishes.spot, orientation);
  return {
    sharp: uprightSharp(readSharp(grid, plane, { source: 'raw', spot }), orientation),
    exposed: readExposedMosaic(mosaic, grid, plane, { source: 'raw', ...wishes }),
    place: readInPlace(placeOfHalfPlane(plane, mosaic, orientation), wishes.reference),
    ...readColoursOfMosaic(mosaic, wishes.target),
  };
}

/**
 * Every reading of a finished picture, upright. `fullWidthPx`: width of the full-size frame where the picture is a preview
 * of it; then everything is preliminary.
 */
export function readPicture(picture: Rgb8, wishes: ReadingWishes, fullWidthPx: number | null): FrameReadings {
  const grid = lightOfPicture(picture);
  const plane = halfPlaneOf(grid);
  const source = fullWidthPx === null ? 'picture' : 'preview';
  const scale = fullWidthPx === null ? 1 : Math.max(1, fullWidthPx / picture.widthPx);
  return {
    sharp: readSharp(grid, plane, { source, spot: wishes.spot, scale }),
    exposed: readExposedPicture(picture, grid, plane, { source, ...wishes }),
    place: readInPlace(placeOfLight(grid, fullWidthPx), wishes.reference),
    ...readColoursOfPicture(picture, wishes.target, fullWidthPx),
  };
}
