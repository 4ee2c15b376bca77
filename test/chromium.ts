import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

/** The system's Chromium: nothing is downloaded. The environment may name another. */
const places = [
  process.env.SETSIDE_CHROMIUM,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
];
const executablePath = places.find((path) => path !== undefined && existsSync(path));

/** A test that needs a browser where there is none is skipped by name. */
export const hasBrowser: boolean = executablePath !== undefined;

/** Headless, without the background calls a desktop browser makes, and with sRGB whatever the screen is. */
export async function launchBrowser(): Promise<Browser> {
  if (executablePath === undefined) throw new Error('no Chromium found; SETSIDE_CHROMIUM can name one');
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
