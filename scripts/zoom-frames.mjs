/**
 * Counts the frames of the screen that the page drops while somebody moves over a picture and goes closer and away, from
 * a station that runs and has a frame of 24 megapixels:
 *
 *   node scripts/zoom-frames.mjs http://127.0.0.1:8460/
 *
 * The browser itself counts, by its own trace (category devtools.timeline.frame): frames drawn, and frames dropped. Beside
 * it stands what the page's code took of each, and first of all what the same movement drops on a page that does nothing
 * but fill a canvas of that size: what a busy machine drops by itself.
 * Needs Chromium (SETSIDE_CHROMIUM names another one than Debian's).
 */
import { chromium } from 'playwright-core';

const [address] = process.argv.slice(2);
if (address === undefined) {
  console.error('usage: node scripts/zoom-frames.mjs ADDRESS-OF-THE-PAGE');
  process.exit(2);
}

const size = { width: 1920, height: 1080 };
const picture = '[data-testid="picture"]';
/** Each hand movement is told so many times, one per frame of a screen of 60 Hz. */
const steps = 120;
const categories = [
  'devtools.timeline',
  'disabled-by-default-devtools.timeline.frame',
  'devtools.timeline.frame',
];

const plainPage = `<canvas width="1580" height="720"></canvas><script>
  const context = document.querySelector('canvas').getContext('2d');
  let asked = false;
  addEventListener('pointermove', ({ clientX }) => {
    if (asked) return;
    asked = true;
    requestAnimationFrame(() => {
      asked = false;
      context.fillStyle = 'hsl(' + clientX + ' 50% 50%)';
      context.fillRect(0, 0, 1580, 720);
    });
  });
</script>`;

const browser = await chromium.launch({
  executablePath: process.env.SETSIDE_CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--force-color-profile=srgb'],
});
try {
  const page = await (await browser.newContext({ viewport: size })).newPage();
  await page.goto(address);
  await page.locator(`${picture}[data-state="rendered"]`).waitFor({ timeout: 120_000 });
  const plain = await (await browser.newContext({ viewport: size })).newPage();
  await plain.setContent(plainPage);
  console.table({
    'reference: a plain canvas': await measured(plain, drag),
    'closer and away by the wheel': await measured(page, wheel),
    'moving at 1:1, tiles coming': await measured(page, dragFresh),
    'moving at 1:1, tiles here': await measured(page, drag),
    'moving at 50 %': await measured(page, dragHalf),
  });
} finally {
  await browser.close();
}

async function wheel(page) {
  await page.mouse.move(size.width / 2, size.height / 2);
  for (let step = 0; step < steps; step += 1) {
    await page.mouse.wheel(0, step < steps / 2 ? -24 : 24);
    await pause(16);
  }
}

async function dragFresh(page) {
  await page.keyboard.press('p');
  await drag(page);
}

async function drag(page) {
  const [x, y] = [size.width / 2, size.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let step = 0; step < steps; step += 1) {
    const angle = (step / steps) * 2 * Math.PI;
    await page.mouse.move(x + Math.sin(angle) * 600, y + (Math.cos(angle) - 1) * 200);
    await pause(16);
  }
  await page.mouse.up();
}

async function dragHalf(page) {
  await page.keyboard.press('-');
  await page.keyboard.press('-');
  await drag(page);
}

async function measured(page, move) {
  await page.bringToFront();
  const session = await page.context().newCDPSession(page);
  const events = [];
  session.on('Tracing.dataCollected', ({ value }) => events.push(...value));
  await session.send('Tracing.start', { categories: categories.join(','), transferMode: 'ReportEvents' });
  await move(page);
  const complete = new Promise((resolve) => session.once('Tracing.tracingComplete', resolve));
  await session.send('Tracing.end');
  await complete;
  await session.detach();
  return counted(events);
}

function counted(events) {
  const named = (name) => events.filter((event) => event.name === name);
  const drawn = named('DrawFrame').length;
  const dropped = named('DroppedFrame').length;
  const busyMs = named('FireAnimationFrame')
    .map(({ dur = 0 }) => dur / 1000)
    .sort((one, other) => one - other);
  return {
    drawn,
    dropped,
    'dropped %': Number(((100 * dropped) / Math.max(1, drawn + dropped)).toFixed(1)),
    'script ms, median': Number((busyMs[busyMs.length >> 1] ?? 0).toFixed(1)),
    'script ms, 95 %': Number((busyMs[Math.floor(busyMs.length * 0.95)] ?? 0).toFixed(1)),
  };
}

function pause(ms) {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
