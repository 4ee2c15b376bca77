/** viewport: pure geometry of the page. Every number's name says its space: image, CSS or device pixels. */

export { arrowOf, arrowStep, shiftSteps } from './arrow-step.ts';
export { copySpaceIn, cropOf, type PartShares } from './crop-mask.ts';
export { type Affine, composed, liesOnItsSide, storedToUpright } from './exif-turn.ts';
export {
  cropToShape,
  fitBox,
  type PictureBox,
  type SizeCssPx,
  type SizeImagePx,
  widthToAsk,
} from './fit-box.ts';
export { atRest, type Flight, flightSeen, landedScreens } from './flight.ts';
export { glided, hasArrived } from './glide.ts';
export {
  layoutRail,
  type RailItem,
  type RailLayout,
  type RailPause,
  type RailPlace,
  type RailStretch,
} from './rail-layout.ts';
export { type RailTick, ticksOf } from './rail-ticks.ts';
export {
  frameSpot,
  type GroupPlace,
  layoutSheet,
  noteHeight,
  type SheetCounts,
  type SheetLayout,
  type SheetMeasures,
  type SheetPart,
  type SheetSpot,
  sheetMeasures,
  spotsSeen,
} from './sheet-layout.ts';
export { type Tile, tilesFor } from './tile-grid.ts';
export { afterStep, type ZoomStep } from './zoom-step.ts';
export {
  heldInside,
  isWhole,
  movedBy,
  type PointDevicePx,
  pixelView,
  placeOf,
  type RectDevicePx,
  type SeenPart,
  type SizeDevicePx,
  type Spot,
  seenPart,
  spotAt,
  wholeView,
  type ZoomStage,
  type ZoomView,
  zoomedAbout,
} from './zoom-view.ts';
