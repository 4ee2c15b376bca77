/** drawer: pixels onto the screen. */
export { canvasDrawer, screenColourSpace } from './canvas-drawer.ts';
export type { DrawnPart, DrawnPicture, DrawnTile, PictureDrawer } from './picture-drawer.ts';
export { placeCanvas } from './place-canvas.ts';
