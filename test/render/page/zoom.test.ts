import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { beforeAll, expect, test } from 'vitest';
import type { Frame } from '../../../src/contract/index.ts';
import { sampleFrame } from '../../../src/page/testing/sample-frame.ts';
import { coded, codedPicture, placeOfPixel } from './coded-picture.ts';
import { arrivingFrame, withFirstView } from './day.ts';
import { type Scene, stage } from './stage.ts';
import { stillLifeJpeg } from './still-life.ts';

const { open } = stage();

let plain: Buffer;
let turned: Buffer;
beforeAll(async () => {
  [plain, turned] = await Promise.all([codedPicture(), codedPicture(true)]);
});

const picture: Frame['picture'] = {
  state: 'rendered',
  width: coded.widthPx,
  height: coded.heightPx,
  source: 'raw',
  look: '',
  target: null,
  original: null,
  version: 2,
};

async function openCoded(options: Parameters<typeof open>[1] = {}): Promise<Scene> {
  const scene = await open((station) => {
    station.put(sampleFrame('a', 0, { picture }), { rendering: plain });
  }, options);
  await scene.page.locator('[data-testid="picture"][data-frame-id="a"][data-zoom="whole"]').waitFor();
  return scene;
}

/** The view has come to rest at this scale, and every tile of it is drawn. */
async function atRest(page: Page, scale: number | 'whole'): Promise<void> {
  const missing = scale === 'whole' ? '' : '[data-missing="0"]';
  await page.locator(`[data-testid="picture"][data-zoom="${scale}"]${missing}`).waitFor();
}

interface CanvasPixels {
  readonly width: number;
  readonly height: number;
  readonly rgba: Buffer;
}

async function canvasPixels(page: Page): Promise<CanvasPixels> {
  const { width, height, base64 } = await page.getByTestId('picture').evaluate((element) => {
    const canvas = element as HTMLCanvasElement;
    const data = canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height).data;
    let text = '';
    for (let at = 0; data !== undefined && at < data.length; at += 32_768)
      text += String.fromCharCode(...data.subarray(at, at + 32_768));
    return { width: canvas.width, height: canvas.height, base64: btoa(text) };
  });
  return { width, height, rgba: Buffer.from(base64, 'base64') };
}

const pixelAt = ({ width, rgba }: CanvasPixels, x: number, y: number): number[] => [
  ...rgba.subarray((y * width + x) * 4, (y * width + x) * 4 + 4),
];

async function middleOfPicture(page: Page): Promise<{ x: number; y: number }> {
  const box = await page.locator('.picture-area').boundingBox();
  if (box === null) throw new Error('expected a picture area');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

test('at 1:1 every pixel of the canvas is the picture’s own, as libvips reads it from the file', async () => {
  const { page } = await openCoded();
  await page.keyboard.press('p');
  await atRest(page, 1);
  const canvas = await canvasPixels(page);
  // The picture's middle lies in the middle of the canvas, on whole pixels.
  const left = -Math.round(canvas.width / 2 - coded.widthPx / 2);
  const top = -Math.round(canvas.height / 2 - coded.heightPx / 2);
  const expected = await sharp(plain)
    .extract({ left, top, width: canvas.width, height: canvas.height })
    .ensureAlpha()
    .raw()
    .toBuffer();
  expect(canvas.width).toBeGreaterThan(600);
  expect(canvas.rgba.equals(expected)).toBe(true);
  expect(await page.getByTestId('scale').textContent()).toBe('1:1');
});

test('the view stays at its place and scale when the next frame comes, so that both can be compared', async () => {
  const { page, station } = await openCoded();
  await page.keyboard.press('p');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowDown');
  await atRest(page, 1);
  const before = placeOfPixel(pixelAt(await canvasPixels(page), 10, 10));
  station.begin(sampleFrame('b', 30, { picture }), { rendering: turned });
  await page.locator('[data-testid="picture"][data-frame-id="b"][data-zoom="1"][data-missing="0"]').waitFor();
  const [red = 0, green = 0, blue = 0] = pixelAt(await canvasPixels(page), 10, 10);
  expect(placeOfPixel([green, red, blue])).toEqual(before);
  // And back again, by the keys that go from frame to frame whatever the view.
  await page.keyboard.press('PageUp');
  await page.locator('[data-testid="picture"][data-frame-id="a"][data-zoom="1"][data-missing="0"]').waitFor();
  expect(placeOfPixel(pixelAt(await canvasPixels(page), 10, 10))).toEqual(before);
});

test('the wheel goes closer about the pointer, and a drag takes the picture along pixel by pixel', async () => {
  const { page } = await openCoded();
  const area = await middleOfPicture(page);
  const [x, y] = [Math.round(area.x + 150), Math.round(area.y - 60)];
  await page.mouse.move(x, y);
  const under = async (): Promise<{ x: number; y: number }> => {
    const canvas = await page.getByTestId('picture').boundingBox();
    if (canvas === null) throw new Error('expected a canvas');
    const [red = 0, green = 0] = pixelAt(
      await canvasPixels(page),
      Math.floor(x - canvas.x),
      Math.floor(y - canvas.y),
    );
    return { x: red * 16 + 8, y: green * 16 + 8 };
  };
  const before = await under();
  for (let notch = 0; notch < 6; notch += 1) await page.mouse.wheel(0, -120);
  await page.waitForFunction(() => {
    const scale = Number(document.querySelector<HTMLElement>('[data-testid="picture"]')?.dataset.zoom);
    return scale > 0.5;
  });
  await standsStill(page);
  const after = await under();
  // The whole picture is drawn at 0.23: a step of 16 picture pixels is 4 of the screen's.
  expect(Math.abs(after.x - before.x)).toBeLessThanOrEqual(24);
  expect(Math.abs(after.y - before.y)).toBeLessThanOrEqual(24);

  await page.keyboard.press('p');
  await atRest(page, 1);
  const from = placeOfPixel(pixelAt(await canvasPixels(page), 300, 200));
  await page.mouse.down();
  await page.mouse.move(x - 101, y + 53, { steps: 7 });
  await page.mouse.up();
  await atRest(page, 1);
  const to = placeOfPixel(pixelAt(await canvasPixels(page), 300, 200));
  expect([to.x - from.x, to.y - from.y]).toEqual([101, -53]);
});

test('a double click shows the spot under it pixel for pixel, a second one the whole picture again', async () => {
  const { page } = await openCoded();
  const box = await page.getByTestId('picture').boundingBox();
  if (box === null) throw new Error('expected a canvas');
  const [x, y] = [Math.round(box.x + box.width * 0.25), Math.round(box.y + box.height * 0.75)];
  await page.mouse.dblclick(x, y);
  await atRest(page, 1);
  const canvas = await page.getByTestId('picture').boundingBox();
  const spot = placeOfPixel(
    pixelAt(await canvasPixels(page), Math.floor(x - (canvas?.x ?? 0)), Math.floor(y - (canvas?.y ?? 0))),
  );
  // One pixel of the screen was 4.4 of the picture.
  expect(Math.abs(spot.x - coded.widthPx * 0.25)).toBeLessThanOrEqual(6);
  expect(Math.abs(spot.y - coded.heightPx * 0.75)).toBeLessThanOrEqual(6);
  await page.mouse.dblclick(x, y);
  await atRest(page, 'whole');
});

test('keys go closer and away by steps that meet 1:1, Escape shows the whole, and the figure says so', async () => {
  const { page } = await openCoded();
  const scale = page.getByTestId('scale');
  const whole = await scale.textContent();
  expect(whole).toMatch(/^2\d %$/);
  // From a quarter by steps of the square root of two.
  for (let press = 0; press < 4; press += 1) await page.keyboard.press('+');
  await atRest(page, 1);
  expect(await scale.textContent()).toBe('1:1');
  await page.keyboard.press('-');
  await scale.getByText('71 %').waitFor();
  await page.getByTestId('overview').waitFor();
  await page.keyboard.press('Escape');
  await atRest(page, 'whole');
  expect(await page.getByTestId('overview').count()).toBe(0);
  expect(await scale.textContent()).toBe(whole);
});

test('while the rail has the focus the arrows go from frame to frame, however closely one looks', async () => {
  const { page, station } = await openCoded();
  station.begin(sampleFrame('b', 30, { picture }), { rendering: turned });
  await page.locator('[data-testid="picture"][data-frame-id="b"]').waitFor();
  await page.keyboard.press('p');
  await atRest(page, 1);
  await page.locator('.rail-frame[aria-current="true"]').focus();
  await page.keyboard.press('ArrowUp');
  await page.locator('[data-testid="picture"][data-frame-id="a"][data-zoom="1"]').waitFor();
});

test('tiles are asked for from the middle outwards, and those that left the view are taken back', async () => {
  const { page, station } = await openCoded();
  const letGo = station.holdRegions();
  await page.keyboard.press('p');
  await until(() => station.regions.length === 4);
  // The middle of 3000 × 2000 lies in the tile at 1024, 512; the next nearest is the one below.
  expect(station.regions[0]).toMatchObject({ left: 1024, top: 512 });
  const first = [...station.regions];
  for (let press = 0; press < 8; press += 1) await page.keyboard.press('ArrowRight');
  await until(() => first.some(({ hungUp }) => hungUp));
  letGo();
  await atRest(page, 1);
  const [lastLeft] = station.regions.slice(-1).map(({ left }) => left);
  expect(lastLeft).toBeGreaterThan(1024);
});

/**
 * 8-bit codes by which the same spot may differ between the coarse picture and the tile: the coarse one is a JPEG (quality
 * 95) of a picture whose blue jumps at every step; differences of 2 were seen in it.
 */
const codesMax = 3;

test('what is here is shown at once and sharpened tile by tile: no frame between is blank, nothing moves', async () => {
  const { page, station } = await openCoded();
  const letGo = station.holdRegions();
  await page.keyboard.press('p');
  await page.locator('[data-testid="picture"][data-zoom="1"]').waitFor();
  await page.evaluate(({ widthPx, heightPx }) => {
    const painted: unknown[] = [];
    Object.assign(window, { painted });
    // The middle of the picture lies in the middle of the canvas; the spot is to lie in the middle of a step.
    const midStep = (spot: number, sizePx: number, canvasPx: number): number =>
      spot + ((((8 - (sizePx - canvasPx) / 2 - spot) % 16) + 16) % 16);
    const look = (): void => {
      const canvas = document.querySelector<HTMLCanvasElement>('[data-testid="picture"]');
      const context = canvas?.getContext('2d');
      if (canvas != null && context != null) {
        const x = Math.floor(midStep(300, widthPx, canvas.width));
        const y = Math.floor(midStep(200, heightPx, canvas.height));
        const [red, green, , alpha] = context.getImageData(x, y, 1, 1).data;
        const corner = context.getImageData(2, 2, 1, 1).data[3];
        painted.push({ red, green, alpha, corner, missing: Number(canvas.dataset.missing) });
      }
      requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  }, coded);
  letGo();
  await atRest(page, 1);
  await page.evaluate(
    () => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))),
  );
  const painted = (await page.evaluate(() => Reflect.get(window, 'painted'))) as {
    red: number;
    green: number;
    alpha: number;
    corner: number;
    missing: number;
  }[];
  expect(new Set(painted.map(({ missing }) => missing)).size).toBeGreaterThan(1);
  for (const one of painted) {
    expect([one.alpha, one.corner]).toEqual([255, 255]);
    // Red and green are steps of 16 pixels: what is under the spot stays the same while it sharpens.
    expect(Math.abs(one.red - (painted[0]?.red ?? 0))).toBeLessThanOrEqual(codesMax);
    expect(Math.abs(one.green - (painted[0]?.green ?? 0))).toBeLessThanOrEqual(codesMax);
  }
});

test('a tile that does not come is asked for again; until then the coarse picture stands', async () => {
  const { page, station } = await openCoded();
  station.regionsToFail = 3;
  await page.keyboard.press('p');
  await atRest(page, 1);
  const places = station.regions.map(({ left, top }) => `${left} ${top}`);
  expect(new Set(places).size).toBeLessThan(places.length);
});

test('two fingers go closer, one moves, a double tap shows pixel for pixel', async () => {
  const { page } = await openCoded({ hasTouch: true, viewport: { width: 390, height: 844 } });
  const middle = await middleOfPicture(page);
  const box = await page.getByTestId('picture').boundingBox();
  const whole = (box?.width ?? 0) / coded.widthPx;
  const touch = await touches(page);
  await touch('touchStart', [middle.x - 20, middle.y], [middle.x + 20, middle.y]);
  for (let step = 1; step <= 8; step += 1)
    await touch('touchMove', [middle.x - 20 - step * 8, middle.y], [middle.x + 20 + step * 8, middle.y]);
  await touch('touchEnd');
  const pinched = Number(await page.getByTestId('picture').getAttribute('data-zoom'));
  // From 40 px to 168 px between the fingers.
  expect(pinched / whole).toBeGreaterThan(3.2);
  expect(pinched / whole).toBeLessThan(5.2);
  for (let tap = 0; tap < 2; tap += 1) {
    await touch('touchStart', [middle.x, middle.y]);
    await touch('touchEnd');
  }
  await atRest(page, 1);
  const before = placeOfPixel(pixelAt(await canvasPixels(page), 100, 100));
  await touch('touchStart', [middle.x, middle.y]);
  for (let step = 1; step <= 5; step += 1)
    await touch('touchMove', [middle.x - step * 10, middle.y - step * 4]);
  await touch('touchEnd');
  await atRest(page, 1);
  const after = placeOfPixel(pixelAt(await canvasPixels(page), 100, 100));
  expect([after.x - before.x, after.y - before.y]).toEqual([50, 20]);
});

test('where people want no movement the view is there at once', async () => {
  const { page } = await openCoded({ reducedMotion: 'reduce' });
  const scales = await page.evaluate(async () => {
    dispatchEvent(new KeyboardEvent('keydown', { key: 'p' }));
    const seen: string[] = [];
    for (let frame = 0; frame < 3; frame += 1) {
      await new Promise((resolve) => requestAnimationFrame(resolve));
      seen.push(document.querySelector<HTMLElement>('[data-testid="picture"]')?.dataset.zoom ?? '');
    }
    return [...new Set(seen)];
  });
  expect(scales.filter((scale) => scale !== 'whole')).toEqual(['1']);
});

test('a frame that is still arriving can be looked at closely in its preview, and nothing else is asked for', async () => {
  const { page, station } = await open(async (fake) => {
    fake.put(withFirstView(arrivingFrame('n', 0, 0.4), 0.4), {
      firstView: await stillLifeJpeg({ place: 0.4, hue: 30, light: 1 }, 640, 427),
    });
  });
  await page.locator('[data-testid="picture"][data-state="first-view"]').waitFor();
  await page.keyboard.press('p');
  await atRest(page, 1);
  const canvas = await canvasPixels(page);
  for (let at = 3; at < canvas.rgba.length; at += 4 * 997) expect(canvas.rgba[at]).toBe(255);
  expect(station.regions).toEqual([]);
});

test('with two device pixels per CSS pixel 1:1 means the screen’s own pixels', async () => {
  const { page } = await openCoded({ deviceScaleFactor: 2 });
  await page.keyboard.press('p');
  await atRest(page, 1);
  const canvas = await canvasPixels(page);
  const [one, next] = [pixelAt(canvas, 500, 400), pixelAt(canvas, 501, 400)].map(placeOfPixel);
  expect((next?.x ?? 0) - (one?.x ?? 0)).toBe(1);
});

test('the overview takes the view where it is pressed', async () => {
  const { page } = await openCoded();
  await page.keyboard.press('p');
  await atRest(page, 1);
  const overview = page.getByTestId('overview');
  const box = await overview.boundingBox();
  if (box === null) throw new Error('expected an overview');
  // Inside its border of 6 px.
  await page.mouse.click(box.x + 6 + (box.width - 12) * 0.25, box.y + 6 + (box.height - 12) * 0.3);
  await atRest(page, 1);
  const canvas = await canvasPixels(page);
  const spot = placeOfPixel(pixelAt(canvas, canvas.width >> 1, canvas.height >> 1));
  expect(Math.abs(spot.x - coded.widthPx * 0.25)).toBeLessThanOrEqual(20);
  expect(Math.abs(spot.y - coded.heightPx * 0.3)).toBeLessThanOrEqual(20);
});

test('axe finds nothing while a part is looked at closely', async () => {
  const { page } = await openCoded();
  await page.keyboard.press('p');
  await atRest(page, 1);
  const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
  const { violations } = await new AxeBuilder({ page }).withTags(tags).analyze();
  expect(violations.flatMap((rule) => rule.nodes.map((node) => `${rule.id}: ${node.html}`))).toEqual([]);
});

/** Two painted frames at the same scale in a row. */
async function standsStill(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const canvas = document.querySelector<HTMLElement>('[data-testid="picture"]');
    const now = `${canvas?.dataset.zoom} ${canvas?.dataset.missing}`;
    const still = Reflect.get(window, 'before') === now && canvas?.dataset.missing === '0';
    Object.assign(window, { before: now });
    return still;
  });
}

async function until(check: () => boolean): Promise<void> {
  await expect.poll(check, { timeout: 20_000 }).toBe(true);
}

type Touch = (
  type: 'touchStart' | 'touchMove' | 'touchEnd',
  ...points: readonly (readonly [number, number])[]
) => Promise<void>;

/** Fingers as the browser hears of them from a screen. */
async function touches(page: Page): Promise<Touch> {
  const session = await page.context().newCDPSession(page);
  return async (type, ...points) => {
    const touchPoints = points.map(([x, y], id) => ({ x, y, id }));
    await session.send('Input.dispatchTouchEvent', { type, touchPoints });
  };
}
