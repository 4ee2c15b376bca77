import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect } from 'vitest';
import { launchBrowser } from '../../chromium.ts';
import { type BuiltPage, buildPage } from './built-page.ts';
import { FakeStation } from './fake-station.ts';

/** A page open on a fake station, with what it complained about. */
export interface Scene {
  readonly station: FakeStation;
  readonly page: Page;
}

/** Messages of the browser that are about a station that is away, as some tests want it. */
const aboutTheLine =
  /ERR_CONNECTION_REFUSED|ERR_INCOMPLETE_CHUNKED|ERR_EMPTY_RESPONSE|ERR_CONNECTION_RESET|ERR_SOCKET_NOT_CONNECTED|404|409|503/;

/**
 * Builds the page and starts a browser once per test file; `open` gives each test a station and a page of its own.
 * After each test the page must have complained of nothing: no error, no breach of the security policy.
 */
export function stage(): {
  open(
    prepare: (station: FakeStation) => void | Promise<void>,
    options?: BrowserContextOptions,
  ): Promise<Scene>;
} {
  let built: BuiltPage | null = null;
  let browser: Browser | null = null;
  const scenes: Scene[] = [];
  const complaints: string[] = [];

  beforeAll(async () => {
    [built, browser] = await Promise.all([buildPage(), launchBrowser()]);
  });
  afterEach(async () => {
    for (const { page, station } of scenes.splice(0)) {
      await page.context().close();
      await station.stop();
    }
    expect(complaints.splice(0)).toEqual([]);
  });
  afterAll(async () => {
    await browser?.close();
  });

  return {
    async open(prepare, options = {}) {
      if (built === null || browser === null) throw new Error('expected the stage to be set up by now');
      const station = new FakeStation(built.dir);
      await station.start();
      await prepare(station);
      const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
      const page = await context.newPage();
      page.on('pageerror', (error) => complaints.push(error.message));
      page.on('console', (message) => {
        if (message.type() === 'error' && !aboutTheLine.test(message.text())) complaints.push(message.text());
      });
      const scene = { station, page };
      scenes.push(scene);
      await page.goto(station.url);
      return scene;
    },
  };
}
