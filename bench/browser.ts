import { type Browser, chromium, type Page } from 'playwright-core';

export async function openBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env.SETSIDE_CHROMIUM ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

/** When the canvas first showed each state, milliseconds since 1970; emptied by {@link forgetPaints}. */
export async function watchPaints(page: Page): Promise<void> {
  await page.evaluate(() => {
    const seen: Record<string, number> = {};
    Object.assign(window, { benchSeen: seen });
    const look = (): void => {
      const canvas = document.querySelector<HTMLCanvasElement>('[data-testid="picture"]');
      const key = canvas === null ? '' : `${canvas.dataset.frameId} ${canvas.dataset.state}`;
      // The state says what has been drawn; this callback runs before the compositor shows it, so one more is waited.
      if (key !== '' && !(key in seen)) {
        seen[key] = 0;
        requestAnimationFrame(() => {
          seen[key] = performance.timeOrigin + performance.now();
        });
      }
      requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
}

/** The moment at which a frame's state was on the screen; waits for it. */
export async function paintedAtMs(page: Page, frame: string, state: string): Promise<number> {
  const key = `${frame} ${state}`;
  const handle = await page.waitForFunction(
    (name) => (window as unknown as { benchSeen: Record<string, number> }).benchSeen[name] || null,
    key,
    { timeout: 60_000, polling: 50 },
  );
  return Number(await handle.jsonValue());
}
