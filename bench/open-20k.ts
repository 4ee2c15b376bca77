import type { Browser } from 'playwright-core';
import { openBrowser } from './browser.ts';
import { type Bench, type BenchResult, median, type Run, resultOf } from './measure.ts';
import { missedOnPlainPage, missedWhileScrolling } from './scrolling.ts';
import type { BenchStation } from './station.ts';
import { openTwoHomes } from './two-homes.ts';

const framesFew = 200;
const framesMany = 20_000;
const viewport = { width: 1920, height: 1080 };

/** How soon the Sheet page can be used: its first picture painted and a key answered. And how many screens scrolling misses. */
export const open20k: Bench = {
  name: 'open-20k',
  about: 'the Sheet page with 20,000 frames, and scrolling it',
  async measure(rounds, say): Promise<BenchResult> {
    const homes = await openTwoHomes(framesFew, framesMany, say);
    const browser = await openBrowser();
    const runs: Run[] = [];
    const wholes: number[] = [];
    const missed: number[] = [];
    const missedPlain: number[] = [];
    try {
      for (const station of [homes.few, homes.many]) await openSheet(browser, station, false);
      for (let round = 0; round < rounds; round += 1) {
        const few = await openSheet(browser, homes.few, false);
        const many = await openSheet(browser, homes.many, true);
        runs.push({ ours: many.usableMs, reference: few.usableMs });
        wholes.push(many.wholeMs);
        missed.push(many.missedShare);
        const plain = await missedOnPlainPage(browser, viewport);
        missedPlain.push(plain);
        say(
          `  ${many.usableMs.toFixed(0)} ms, ${few.usableMs.toFixed(0)} with ${framesFew}; all known after ${(many.wholeMs / 1000).toFixed(1)} s; ${(many.missedShare * 100).toFixed(1)} % of the screens missed while scrolling, ${(plain * 100).toFixed(1)} % on a plain page`,
        );
      }
    } finally {
      await browser.close();
      await homes.close();
    }
    return resultOf(
      {
        name: 'open-20k',
        referenceName: `${framesFew} frames`,
        goal: 2,
        better: 'lower',
        unit: 'ms',
        note: `All ${framesMany} known after ${(median(wholes) / 1000).toFixed(1)} s, behind what one does. Scrolling then misses ${(median(missed) * 100).toFixed(1)} % of the screens, a plain page without pictures ${(median(missedPlain) * 100).toFixed(1)} % (goal: at most 5 % more).`,
      },
      runs,
    );
  },
};

interface Opened {
  readonly usableMs: number;
  /** Until every frame is known. */
  readonly wholeMs: number;
  readonly missedShare: number;
}

async function openSheet(browser: Browser, station: BenchStation, scroll: boolean): Promise<Opened> {
  const context = await browser.newContext({ viewport });
  try {
    const page = await context.newPage();
    const from = performance.now();
    await page.goto(`${station.web}/#/sheet`);
    await page.waitForFunction(() => {
      const image = document.querySelector<HTMLImageElement>('.sheet-cell img');
      return image?.complete === true && image.naturalWidth > 0;
    });
    await page.keyboard.press('ArrowRight');
    await page.locator('.sheet-cell[data-hand="true"]').first().waitFor();
    const usableMs = performance.now() - from;
    if (!scroll) return { usableMs, wholeMs: usableMs, missedShare: 0 };
    await page.waitForFunction(
      (count) => (document.querySelector('.sheet-said')?.textContent ?? '').startsWith(String(count)),
      // With the pictures that it is made of.
      framesMany + 16,
      { timeout: 300_000, polling: 100 },
    );
    const wholeMs = performance.now() - from;
    return { usableMs, wholeMs, missedShare: await missedWhileScrolling(page, '.sheet-field') };
  } finally {
    await context.close();
  }
}
