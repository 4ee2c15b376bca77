import { setTimeout as pause } from 'node:timers/promises';
import type { Browser, Page } from 'playwright-core';
import { openBrowser } from './browser.ts';
import { picturesMax } from './many-frames.ts';
import { type Bench, type BenchResult, median, type Run, resultOf } from './measure.ts';
import type { BenchStation } from './station.ts';
import { openTwoHomes } from './two-homes.ts';

const framesFew = 200;
const framesMany = 20_000;
const viewport = { width: 1920, height: 1080 };
const patienceMs = 600_000;

/** Every frame of the job marked as one act on one screen, and taken back on another, while both are used. */
export const mark20k: Bench = {
  name: 'mark-20k',
  about: 'a job of 20,000 frames marked as one act, and taken back on another screen',
  async measure(rounds, say): Promise<BenchResult> {
    const homes = await openTwoHomes(framesFew, framesMany, say);
    const browser = await openBrowser();
    const runs: Run[] = [];
    const undone: number[] = [];
    const keys: number[] = [];
    const atRest: number[] = [];
    try {
      const few = await openTwoScreens(browser, homes.few, framesFew);
      const many = await openTwoScreens(browser, homes.many, framesMany);
      for (let round = 0; round < rounds; round += 1) {
        const reference = await markAll(few, framesFew, round);
        const ours = await markAll(many, framesMany, round);
        runs.push({ ours: ours.markedMs / framesMany, reference: reference.markedMs / framesFew });
        undone.push(ours.undoneMs);
        keys.push(...ours.keysMs);
        atRest.push(...ours.atRestMs);
        say(
          `  marked in ${seconds(ours.markedMs)}, taken back in ${seconds(ours.undoneMs)}; a key is answered after ${median(ours.keysMs).toFixed(0)} ms, ${Math.max(...ours.keysMs).toFixed(0)} at most; ${framesFew} in ${seconds(reference.markedMs)}`,
        );
      }
    } finally {
      await browser.close();
      await homes.close();
    }
    return resultOf(
      {
        name: 'mark-20k',
        referenceName: `${framesFew} frames`,
        goal: 2,
        better: 'lower',
        unit: 'ms a frame',
        note: `${framesMany} marked in ${seconds(median(runs.map(({ ours }) => ours * framesMany)))}, taken back on the other screen in ${seconds(median(undone))}. Meanwhile an arrow key is answered on both screens after ${median(keys).toFixed(0)} ms, one of twenty after ${share(keys, 0.95).toFixed(0)} or more; at rest after ${median(atRest).toFixed(0)}.`,
      },
      runs,
    );
  },
};

type Screens = readonly [Page, Page];

async function openTwoScreens(browser: Browser, station: BenchStation, frames: number): Promise<Screens> {
  const open = async (): Promise<Page> => {
    const page = await (await browser.newContext({ viewport })).newPage();
    await page.goto(`${station.web}/#/sheet`);
    await untilSaid(page, `${frames + picturesMax} `);
    await page.keyboard.press('ArrowRight');
    await page.locator('.sheet-cell[data-hand="true"]').first().waitFor();
    return page;
  };
  return [await open(), await open()];
}

interface Marked {
  /** From the key to the page that says how many frames there are, and no longer how far it is. */
  readonly markedMs: number;
  /** From the key on the other screen to what it says was taken back. */
  readonly undoneMs: number;
  readonly keysMs: readonly number[];
  readonly atRestMs: readonly number[];
}

async function markAll([page, other]: Screens, frames: number, round: number): Promise<Marked> {
  const atRestMs = [await answerMs(page), await answerMs(other)];
  await page.keyboard.press('Control+a');
  await page.locator('.hand-count', { hasText: String(frames + picturesMax) }).waitFor();
  const keysMs: number[] = [];
  let isOver = false;
  const answers = (async (): Promise<void> => {
    while (!isOver) {
      keysMs.push(await answerMs(page), await answerMs(other));
      await pause(200);
    }
  })();
  const from = performance.now();
  // Another mark each time, so that what was taken back is not what is done.
  await page.keyboard.press(round % 2 === 0 ? 'a' : 'o');
  await untilUndone(page, 'marked');
  await untilSaid(page, `${frames + picturesMax} frames`);
  const markedMs = performance.now() - from;
  const again = performance.now();
  await other.keyboard.press('Control+z');
  await other.locator('.top-said', { hasText: /^Taken back/ }).waitFor({ timeout: patienceMs });
  const undoneMs = performance.now() - again;
  isOver = true;
  await answers;
  return { markedMs, undoneMs, keysMs, atRestMs };
}

/** There is an act to take back. */
async function untilUndone(page: Page, what: string): Promise<void> {
  const button = page.locator('.top-line > button', { hasText: `Undo: ${what}` });
  await button.waitFor({ timeout: patienceMs });
}

function untilSaid(page: Page, words: string): Promise<unknown> {
  return page.waitForFunction(
    (begin) => (document.querySelector('.sheet-said')?.textContent ?? '').startsWith(begin),
    words,
    { timeout: patienceMs, polling: 100 },
  );
}

/** From an arrow key to the screen on which the keys are at the next frame. */
function answerMs(page: Page): Promise<number> {
  return page.evaluate(
    (longestMs) =>
      new Promise<number>((resolve) => {
        const stop = '.sheet-cell[data-part="frame"][tabindex="0"]';
        const at = (): string | undefined => document.querySelector<HTMLElement>(stop)?.dataset.frameId;
        const [before, from] = [at(), performance.now()];
        dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowRight', bubbles: true }));
        const look = (): void => {
          const ms = performance.now() - from;
          if (at() !== before || ms > longestMs) resolve(ms);
          else requestAnimationFrame(look);
        };
        requestAnimationFrame(look);
      }),
    10_000,
  );
}

function share(values: readonly number[], part: number): number {
  const sorted = [...values].sort((one, other) => one - other);
  return sorted[Math.floor(sorted.length * part)] ?? Number.NaN;
}

function seconds(ms: number): string {
  return `${(ms / 1000).toFixed(1)} s`;
}
