/** viewport: pure geometry of the page. Every number's name says its space: image, CSS or device pixels. */
export { type Affine, composed, liesOnItsSide, storedToUpright } from './exif-turn.ts';
export {
  cropToShape,
  fitBox,
  type PictureBox,
  type SizeCssPx,
  type SizeImagePx,
  widthToAsk,
} from './fit-box.ts';
export {
  layoutRail,
  type RailItem,
  type RailLayout,
  type RailPause,
  type RailPlace,
  type RailStretch,
} from './rail-layout.ts';
export { type RailTick, ticksOf } from './rail-ticks.ts';
