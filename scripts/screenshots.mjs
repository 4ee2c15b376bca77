/**
 * Takes the pictures of the pages that `docs/screenshots/` holds, from a station that runs:
 *
 *   npm start -- --demo                              in one window, and when frames have come:
 *   node scripts/screenshots.mjs http://127.0.0.1:8460/
 *   node scripts/screenshots.mjs http://127.0.0.1:8460/ look-1280x800      only that one
 *
 * Needs Chromium (SETSIDE_CHROMIUM names another one than Debian's).
 */
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

const [address, ...names] = process.argv.slice(2);
if (address === undefined) {
  console.error('usage: node scripts/screenshots.mjs ADDRESS-OF-THE-PAGE [NAME…]');
  process.exit(2);
}

const directory = join(import.meta.dirname, '../docs/screenshots');
/** How long a first rendering may take on a slow machine. */
const firstPictureMs = 120_000;

const sizes = [
  { name: 'set-1920x1080', width: 1920, height: 1080, arriving: true },
  { name: 'set-1280x800', width: 1280, height: 800 },
  { name: 'set-390x844', width: 390, height: 844 },
  { name: 'set-far-view-1920x1080', width: 1920, height: 1080, button: 'Far view' },
  { name: 'set-close-1920x1080', width: 1920, height: 1080, key: 'p' },
  { name: 'set-dim-1920x1080', width: 1920, height: 1080, button: 'Dim surround' },
  { name: 'camera-sheet-1280x800', width: 1280, height: 800, button: 'Camera sheet' },
  { name: 'job-1280x800', width: 1280, height: 800, hash: '#/job' },
  { name: 'sheet-1280x800', width: 1280, height: 800, hash: '#/sheet', shows: '.sheet-cell canvas' },
  { name: 'line-1280x800', width: 1280, height: 800, hash: '#/line', shows: '.way-state' },
  { name: 'hand-over-1280x800', width: 1280, height: 800, hash: '#/hand-over', shows: '.hand-slip' },
  { name: 'strike-1280x800', width: 1280, height: 800, hash: '#/strike', shows: 'h2' },
  { name: 'look-1280x800', width: 1280, height: 800, path: 'look', piece: 'balance' },
];

await mkdir(directory, { recursive: true });
const browser = await chromium.launch({
  executablePath: process.env.SETSIDE_CHROMIUM ?? '/usr/bin/chromium',
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
try {
  for (const size of sizes) if (names.length === 0 || names.includes(size.name)) await take(size);
} finally {
  await browser.close();
}

async function take({ name, width, height, button, key, arriving, hash, shows, path, piece }) {
  const context = await browser.newContext({ viewport: { width, height } });
  const page = await context.newPage();
  await page.goto(address);
  await page.locator('[data-testid="picture"][data-state="rendered"]').waitFor({ timeout: firstPictureMs });
  if (arriving) await partlyArrived(page);
  if (button !== undefined) await page.getByRole('button', { name: button }).click();
  if (key !== undefined) await sharpened(page, key);
  if (hash !== undefined) await pageIsThere(page, hash, shows ?? 'h1');
  if (path !== undefined) await instrumentIsOut(page, path, piece);
  await smallPicturesAreThere(page);
  await page.screenshot({ path: join(directory, `${name}.png`) });
  console.log(`docs/screenshots/${name}.png`);
  await context.close();
}

/** The moment the page is made for: a frame on its way, some of it here, its first view shown. */
async function partlyArrived(page) {
  await page.locator('[data-testid="picture"][data-state="first-view"]').waitFor({ timeout: firstPictureMs });
  await page.waitForFunction(() =>
    /[2-7]\d % arrived/.test(document.querySelector('[data-testid="picture-source"]')?.textContent ?? ''),
  );
}

/** Looked at closely, every tile there. */
async function sharpened(page, key) {
  await page.keyboard.press(key);
  await page.locator('[data-testid="picture"][data-zoom="1"][data-missing="0"]').waitFor();
}

/** Another page of the same document, what it shows there. */
async function pageIsThere(page, hash, shows) {
  await page.goto(`${address}${hash}`);
  await page.locator(shows).first().waitFor();
}

/** The Look page with an instrument on the bench, its picture as it is delivered. */
async function instrumentIsOut(page, path, piece) {
  await page.goto(new URL(path, address).href);
  await page.locator('[data-testid="look-picture"][data-state="shown"]').waitFor({ timeout: firstPictureMs });
  await page.locator(`.strip-piece[data-instrument="${piece}"]`).click();
  await page.getByText('As delivered', { exact: true }).waitFor();
}

/** A small picture that has not been drawn yet is one pixel wide. */
function smallPicturesAreThere(page) {
  return page.waitForFunction(() =>
    [...document.querySelectorAll('.small-picture')].every((canvas) => canvas.width > 1),
  );
}
