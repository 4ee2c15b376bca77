import type { Page } from 'playwright-core';

/** What stands on the picture canvas, read back pixel by pixel. */
export interface ShownPicture {
  readonly frame: string;
  readonly state: string;
  readonly width: number;
  readonly height: number;
  /** RGBA, row by row, `width * height * 4`. */
  readonly pixels: Uint8ClampedArray;
}

export async function readPicture(page: Page): Promise<ShownPicture | null> {
  const read = await page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('[data-testid="picture"]');
    const context = canvas?.getContext('2d');
    if (!canvas || !context || canvas.width === 0) return null;
    const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
    let text = '';
    for (let at = 0; at < data.length; at += 32_768)
      text += String.fromCharCode(...data.subarray(at, at + 32_768));
    return {
      frame: canvas.dataset.frameId ?? '',
      state: canvas.dataset.state ?? '',
      width: canvas.width,
      height: canvas.height,
      pixels: btoa(text),
    };
  });
  if (read === null) return null;
  return { ...read, pixels: new Uint8ClampedArray(Buffer.from(read.pixels, 'base64')) };
}
