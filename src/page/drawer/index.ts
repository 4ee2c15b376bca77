/** drawer: pixels onto the screen. */
export { canvasDrawer, screenColourSpace } from './canvas-drawer.ts';
export type { DrawnPicture, PictureDrawer } from './picture-drawer.ts';
