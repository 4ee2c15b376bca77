import { type Browser, chromium } from 'playwright-core';

/** Where Debian puts it; elsewhere the environment says. */
const executablePath = process.env.SETSIDE_CHROMIUM ?? '/usr/bin/chromium';

export function launchBrowser(): Promise<Browser> {
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
