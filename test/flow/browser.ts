import { type Browser, chromium, type Page } from 'playwright-core';
import { hasProgram } from './clients.ts';

/** The system's Chromium: nothing is downloaded. */
const executable = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

export const hasBrowser: boolean = hasProgram('chromium') || hasProgram('chromium-browser');

/** Headless, without the background calls a desktop browser makes. */
export async function openBrowser(): Promise<Browser> {
  const { existsSync } = await import('node:fs');
  const executablePath = executable.find((path) => existsSync(path));
  if (executablePath === undefined) throw new Error('no Chromium found');
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--force-color-profile=srgb',
    ],
  });
}

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
