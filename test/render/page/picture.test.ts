import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { sampleFrame, sampleStation } from '../../../src/page/testing/sample-frame.ts';
import { hasShared, sharedPath } from '../../shared.ts';
import { canvasMeans, fileMeans, meanDifference } from './canvas-pixels.ts';
import { arrivingFrame, brokenOffFrame, textFrame, withFirstView } from './day.ts';
import { stage } from './stage.ts';
import { stillLifeJpeg } from './still-life.ts';

const { open } = stage();
const life = { place: 0.4, hue: 30, light: 1 };

/**
 * 8-bit units, mean over a 24 × 24 grid. Two JPEG decoders and two scalers stand between the sides; libjpeg's own
 * conformance allows one unit each (ISO/IEC 10918-2), and a wrong picture differs by tens.
 */
const samePictureMax = 1.5;

const pictureIn = (page: Page, frameId: string, state: string) =>
  page.locator(`[data-testid="picture"][data-frame-id="${frameId}"][data-state="${state}"]`);

test('the pixels of a rendering are on the canvas, as libvips sees the same picture', async () => {
  const rendering = await stillLifeJpeg(life, 1500, 1000);
  const { page } = await open((station) =>
    station.put(
      sampleFrame('a', 0, {
        picture: {
          state: 'rendered',
          width: 3000,
          height: 2000,
          source: 'raw',
          look: '',
          target: null,
          original: null,
          version: 2,
        },
      }),
      { rendering },
    ),
  );
  await pictureIn(page, 'a', 'rendered').waitFor();
  const expected = await fileMeans(rendering, 678, 452);
  expect(meanDifference(await canvasMeans(page), expected)).toBeLessThan(samePictureMax);
  const other = await stillLifeJpeg({ ...life, place: 0.5 }, 1500, 1000);
  expect(meanDifference(await canvasMeans(page), await fileMeans(other, 678, 452))).toBeGreaterThan(5);
});

test('a screen with two device pixels per CSS pixel gets twice the pixels in the same box', async () => {
  const rendering = await stillLifeJpeg(life, 1500, 1000);
  const { page } = await open((station) => station.put(sampleFrame('a', 0), { rendering }), {
    deviceScaleFactor: 2,
  });
  await pictureIn(page, 'a', 'rendered').waitFor();
  const sizes = await page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('[data-testid="picture"]');
    const box = canvas?.getBoundingClientRect();
    return { pixels: canvas?.width ?? 0, css: box?.width ?? 0 };
  });
  expect(sizes.pixels).toBe(Math.round(sizes.css * 2));
});

const screens = [
  { width: 1920, height: 1080 },
  { width: 1280, height: 800 },
  { width: 390, height: 844 },
];

test.each(screens)(
  'at $width × $height the first view gives way to the rendering in the same box, and no frame between is blank',
  async (viewport) => {
    // The facts, the verdicts and with them every word around the picture change too.
    const whole = sampleFrame('a', 0, { name: 'A_SS0060.DNG' });
    const capture = {
      ...whole.capture,
      exposureTimeS: null,
      fNumber: null,
      sensitivity: null,
      focalLengthMm: null,
    };
    const frame = { ...withFirstView(arrivingFrame('a', 0, 0.4), 0.4), capture };
    const { page, station } = await open(
      async (fake) => {
        fake.station = sampleStation({ secondPlaces: [] });
        fake.put(frame, {
          // A preview of another shape, padded by the camera, and darker: the change must be visible and the box still.
          firstView: await stillLifeJpeg({ ...life, light: 0.6 }, 640, 427, 70),
          rendering: await stillLifeJpeg(life, 1500, 1000),
        });
      },
      { viewport },
    );
    await pictureIn(page, 'a', 'first-view').waitFor();
    expect(await page.getByTestId('picture-source').textContent()).toContain('40 % arrived');
    await watchPaintedFrames(page);
    const picture = {
      state: 'rendered',
      width: 3000,
      height: 2000,
      source: 'raw',
      look: '',
      target: null,
      original: null,
      version: 2,
    } as const;
    const arrived = {
      judgement: 'doubt',
      findings: [{ code: 'arrived.one-place', args: {} }],
      figure: { value: 24.6, unit: 'MB' },
    } as const;
    station.change('a', {
      ...whole,
      picture,
      verdicts: { ...whole.verdicts, arrived: { ...arrived, findings: [...arrived.findings] } },
    });
    await pictureIn(page, 'a', 'rendered').waitFor();
    const painted = await paintedFrames(page);
    const states = painted.map((one) => one.state);
    expect(states[0]).toBe('first-view');
    expect(states.at(-1)).toBe('rendered');
    const [first] = painted;
    for (const one of painted) {
      expect(one.alpha, `the picture’s middle after ${one.atMs} ms`).toBe(255);
      for (const side of ['left', 'top', 'width', 'height'] as const) {
        expect(Math.abs(one[side] - (first?.[side] ?? 0))).toBeLessThanOrEqual(2);
      }
    }
    // The label and the pixels change in the same painted frame: 0.6 of the light against all of it.
    for (const one of painted) expect(one.green > 150).toBe(one.state === 'rendered');
  },
);

test('the caption says what is true of a preview: how much has come, that all has, or that it broke off', async () => {
  const firstView = await stillLifeJpeg(life, 640, 427);
  const arriving = withFirstView(arrivingFrame('a', 0, 0.14), 0.14);
  const { page, station } = await open((fake) => fake.put(arriving, { firstView }));
  const source = page.getByTestId('picture-source');
  await source.getByText('From the camera’s preview, 14 % arrived.').waitFor();
  const broken = brokenOffFrame('a', 0, 0.41);
  station.change('a', { files: broken.files, verdicts: broken.verdicts });
  await source.getByText('From the camera’s preview; it broke off at 41 %.').waitFor();
  const whole = sampleFrame('a', 0);
  station.change('a', { files: whole.files, verdicts: whole.verdicts });
  await source.getByText('From the camera’s preview, until it is rendered.').waitFor();
});

test.each(screens)('at $width × $height the caption cuts nothing', async (viewport) => {
  const { page, station } = await open(
    async (fake) => {
      fake.put(
        sampleFrame('a', 0, {
          name: 'QMST0001.DNG',
          camera: 'camera-at-the-tall-window',
          capture: { ...sampleFrame('a', 0).capture, exposureTimeS: 1 / 8000, sensitivity: 12_800 },
          picture: withFirstView(arrivingFrame('a', 0, 0.4), 0.4).picture,
        }),
        { firstView: await stillLifeJpeg(life, 640, 427) },
      );
    },
    { viewport },
  );
  await pictureIn(page, 'a', 'first-view').waitFor();
  station.begin(arrivingFrame('c', 30, 0.01));
  await page.getByText('A_SS0060.DNG is on its way.').waitFor();
  const parts = await page.locator('.caption').evaluate((caption) => {
    const box = caption.getBoundingClientRect();
    return [...caption.querySelectorAll('p, p > *, button')].map((part) => {
      const { right, bottom } = part.getBoundingClientRect();
      const cut = part.scrollWidth > part.clientWidth + 1 || part.scrollHeight > part.clientHeight + 1;
      const inline = getComputedStyle(part).display === 'inline';
      return { text: part.textContent, out: right > box.right || bottom > box.bottom, cut: cut && !inline };
    });
  });
  expect(parts.length).toBeGreaterThan(8);
  expect(parts.filter(({ out, cut }) => out || cut)).toEqual([]);
});

test('a new frame takes the page over only when its picture is decoded, words and picture together', async () => {
  const { page, station } = await open(async (fake) =>
    fake.put(sampleFrame('a', 0), { rendering: await stillLifeJpeg(life, 1500, 1000) }),
  );
  await pictureIn(page, 'a', 'rendered').waitFor();
  const rendering = await stillLifeJpeg({ ...life, hue: 200 }, 1500, 1000);
  station.begin(arrivingFrame('b', 30, 0.01));
  await page.getByText('A_SS0060.DNG is on its way.').waitFor();
  expect(await page.getByTestId('picture').getAttribute('data-frame-id')).toBe('a');
  station.change('b', { ...sampleFrame('b', 30), name: 'B.DNG', version: 2 }, { rendering });
  await pictureIn(page, 'b', 'rendered').waitFor();
  expect(await page.locator('.caption-frame strong').textContent()).toBe('B.DNG');
});

test('a file that is no picture is named, said to be safe, and leaves no picture of another frame behind', async () => {
  const { page, station } = await open(async (fake) =>
    fake.put(sampleFrame('a', 0), { rendering: await stillLifeJpeg(life, 1500, 1000) }),
  );
  await pictureIn(page, 'a', 'rendered').waitFor();
  station.begin(textFrame('t', 20));
  await page
    .getByTestId('sentence')
    .getByText('NOTES.TXT is kept safe, but it is not a picture (text).')
    .waitFor();
  expect(await page.getByTestId('picture').isVisible()).toBe(false);
});

test('a frame that cannot be developed shows its preview, and why', async () => {
  const reason = { code: 'picture.cannot-develop', args: { name: 'A.DNG', why: 'raw-cannot-decode' } };
  const firstView = await stillLifeJpeg(life, 640, 427);
  const { page } = await open((station) =>
    station.put(
      sampleFrame('a', 0, {
        picture: {
          state: 'cannot',
          reason,
          preview: true,
          width: null,
          height: null,
          orientation: 1,
          version: 1,
        },
      }),
      { firstView },
    ),
  );
  await pictureIn(page, 'a', 'cannot').waitFor();
  expect(meanDifference(await canvasMeans(page), await fileMeans(firstView, 678, 452))).toBeLessThan(
    samePictureMax,
  );
  await page.getByTestId('sentence').getByText('cannot be developed here: how its camera packs it').waitFor();
});

/**
 * The pictures of recurser/exif-orientation-examples as Landscape_1 to 8: one scene stored in all eight ways, held
 * against Landscape_1 by the same 24 × 24 means as `expected.json` beside them, which Pillow made.
 */
test.skipIf(!hasShared()).each([1, 2, 3, 4, 5, 6, 7, 8])(
  'a first view of Exif orientation %i is upright on the canvas',
  async (orientation) => {
    const folder = 'reference/metadata/orientation';
    const firstView = await readFile(sharedPath(`${folder}/Landscape_${orientation}.jpg`));
    const upright = await readFile(sharedPath(`${folder}/Landscape_1.jpg`));
    const [previewWidth, previewHeight] = orientation >= 5 ? [1200, 1800] : [1800, 1200];
    const { page } = await open((station) =>
      station.put(
        sampleFrame('a', 0, {
          picture: {
            state: 'first-view',
            width: 1800,
            height: 1200,
            orientation,
            previewWidth,
            previewHeight,
            arrivedShare: 0.3,
            version: 1,
          },
        }),
        { firstView },
      ),
    );
    await pictureIn(page, 'a', 'first-view').waitFor();
    // Pillow finds up to 0.3 between the stored files themselves; they are separate JPEG encodings.
    expect(meanDifference(await canvasMeans(page), await fileMeans(upright, 678, 452))).toBeLessThan(
      samePictureMax + 0.5,
    );
  },
);

interface PaintedFrame {
  readonly atMs: number;
  readonly state: string;
  readonly alpha: number;
  readonly green: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** From now on notes in every animation frame what the canvas shows in its middle and where it lies. */
async function watchPaintedFrames(page: Page): Promise<void> {
  await page.evaluate(() => {
    const frames: unknown[] = [];
    Object.assign(window, { paintedFrames: frames });
    const look = (atMs: number): void => {
      const canvas = document.querySelector<HTMLCanvasElement>('[data-testid="picture"]');
      const context = canvas?.getContext('2d');
      if (canvas != null && context != null) {
        const { left, top, width, height } = canvas.getBoundingClientRect();
        const spot = context.getImageData(
          Math.floor(canvas.width / 2),
          Math.floor(canvas.height * 0.1),
          1,
          1,
        ).data;
        frames.push({
          atMs,
          state: canvas.hidden ? 'hidden' : (canvas.dataset.state ?? ''),
          alpha: spot[3],
          green: spot[1],
          left,
          top,
          width,
          height,
        });
      }
      requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
  await page.waitForFunction(() => (Reflect.get(window, 'paintedFrames') as unknown[]).length > 2);
}

async function paintedFrames(page: Page): Promise<PaintedFrame[]> {
  const frames = await page.evaluate(
    () =>
      new Promise((resolve) => {
        requestAnimationFrame(() =>
          requestAnimationFrame(() => resolve(Reflect.get(window, 'paintedFrames'))),
        );
      }),
  );
  // The list was made by watchPaintedFrames above.
  return frames as PaintedFrame[];
}
