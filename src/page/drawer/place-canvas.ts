import type { PictureBox } from '../viewport/index.ts';

/**
 * Lays a canvas where its box lies: without this, its size in device pixels is also its size in CSS pixels. Set through
 * the style object: a security policy without inline styles allows that, and no attribute is written.
 */
export function placeCanvas(
  canvas: HTMLElement,
  box: Pick<PictureBox, 'leftCssPx' | 'topCssPx' | 'widthCssPx' | 'heightCssPx'>,
): void {
  canvas.style.left = `${box.leftCssPx}px`;
  canvas.style.top = `${box.topCssPx}px`;
  canvas.style.width = `${box.widthCssPx}px`;
  canvas.style.height = `${box.heightCssPx}px`;
}
