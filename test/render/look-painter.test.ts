import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readExr } from '../../src/image/index.ts';
import { fromHalves } from '../../src/image/kernels/half-floats.ts';
import { defaultLook, type Look, lookSchema, neutralLook } from '../../src/look/index.ts';
import { type DevelopPool, startDevelopPool } from '../../src/workers/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { writeDng } from './dng-writer.ts';

/**
 * Decision 23: pixels read back from the canvas in Chromium lie within this of the station worker's, 8-bit codes. Half
 * floats round light by 2^-12: where a colour beyond white is drawn to the grey of its luminance and that is nearly white,
 * the way there is short and its rounding shows, in some samples of ten thousand of this scene, which has all colours.
 */
const codesMax = 1;
const roundedShareMax = 2e-4;
const roundedCodesMax = 4;

const warm = lookSchema.parse({
  ...defaultLook,
  title: 'warm',
  exposureEv: 0.3,
  balance: { from: 'temperature', temperatureK: 6200, duv: 0.004 },
  flare: 0.01,
  curve: { ...defaultLook.curve, gamma: 1.5, densityRange: 2.2 },
  cdl: { slope: [1.02, 1, 0.98], saturation: 1.1 },
  tint: { darkChroma: 0.02, lightChroma: 0.015 },
});
const looks: readonly Look[] = [
  neutralLook,
  defaultLook,
  warm,
  lookSchema.parse({
    ...defaultLook,
    title: 'bands',
    exposureEv: 1.5,
    bands: [
      { hueDeg: 30, chroma: 0.4, turnDeg: 10 },
      { hueDeg: 264, lightness: -0.3, chroma: -0.5 },
    ],
  }),
  lookSchema.parse({
    ...defaultLook,
    title: 'grey',
    monochrome: { amount: 1, bands: [{ hueDeg: 30, ev: 1 }] },
  }),
  lookSchema.parse({ ...defaultLook, title: 'light corners', falloffEv: 1.2 }),
  lookSchema.parse({ ...defaultLook, title: 'dark corners', falloffEv: -2 }),
  lookSchema.parse({
    version: 2,
    title: 'slope',
    exposureEv: -1,
    cdl: { slope: [1.4, 0.8, 1], power: [1, 1.3, 0.8] },
  }),
];

/** Blocks of all colours a sensor can say, from below black to lost, with noise: negative light and highlights among them. */
function blocks(): Uint8Array {
  const [widthPx, heightPx] = [256, 192];
  let seed = 1;
  const chance = (): number => {
    seed = (seed * 48_271) % 2_147_483_647;
    return seed / 2_147_483_647;
  };
  const values = Uint16Array.from({ length: widthPx * heightPx }, (_, index) => {
    const [row, column] = [Math.floor(index / widthPx), index % widthPx];
    const block = (row >> 3) * 32 + (column >> 3);
    const filter = (row & 1) + (column & 1);
    const share = ((block * ([37, 61, 23][filter] ?? 1)) % 101) / 100;
    return Math.min(16_383, Math.round(500 + share ** 2 * 17_000 + 60 * chance()));
  });
  return writeDng({
    widthPx,
    heightPx,
    values,
    asShotNeutral: [0.5, 1, 0.66],
    baselineExposure: 0.5,
    blackLevels: [512],
    whiteLevel: 16_383,
  });
}

describe.skipIf(!hasBrowser)('the painter of the Look page', () => {
  let folder: string;
  let pool: DevelopPool;
  let browser: Awaited<ReturnType<typeof launchBrowser>>;
  let page: Page;
  let scene: Buffer;

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'setside-painter-'));
    pool = startDevelopPool({ size: 0 });
    await writeFile(join(folder, 'blocks.dng'), blocks());
    await pool.scene({
      path: join(folder, 'blocks.dng'),
      kind: 'raw',
      size: 'half',
      outPath: join(folder, 'blocks.exr'),
    });
    scene = await readFile(join(folder, 'blocks.exr'));
    browser = await launchBrowser();
    page = await browser.newPage();
    const code = await bundled('test/render/look-painter-entry.ts');
    const address = `data:text/javascript;base64,${Buffer.from(code).toString('base64')}`;
    await page.evaluate(
      `import(${JSON.stringify(address)}).then((room) => { globalThis.parts = room;
        globalThis.exr = Uint8Array.from(atob(${JSON.stringify(scene.toString('base64'))}), (c) => c.charCodeAt(0)); })`,
    );
  });

  afterAll(async () => {
    await browser?.close();
    await pool?.close();
    await rm(folder, { recursive: true, force: true });
  });

  test('the scene it is tried on holds negative light and light above white', () => {
    const picture = readExr(scene);
    if (picture === null) throw new Error('the scene is read');
    const light = new Float32Array(picture.halves.length);
    fromHalves(picture.halves, 0, light.length, light, 0);
    expect(light.filter((value) => value < -0.01).length).toBeGreaterThan(100);
    expect(light.filter((value) => value > 1.2).length).toBeGreaterThan(100);
  });

  test.each(looks.map((look) => [look.title, look] as const))(
    'what is read back from the canvas is what the station’s worker renders: %s',
    async (_, look) => {
      const expected = await rendered(look);
      for (const how of ['webgl', 'plain'] as const) {
        const shown = await painted(how, look, null);
        expect(shown.length).toBe((expected.length / 3) * 4);
        expectSame(shown, expected, how);
      }
    },
  );

  test('left of the edge stand the other tables, right of it those that are worked on', async () => {
    const [now, before] = [await rendered(warm), await rendered(defaultLook)];
    const width = 128;
    const both = Buffer.from(now);
    for (let at = 0; at < both.length; at += 3) {
      if ((at / 3) % width < width / 4) before.copy(both, at, at, at + 3);
    }
    for (const how of ['webgl', 'plain'] as const) {
      expectSame(await painted(how, warm, defaultLook), both, how);
    }
  });

  test('after its context was lost and given back it shows the same', async () => {
    const expected = await rendered(warm);
    const shown = await page.evaluate(
      `(async () => {
        const { canvas: on } = globalThis.openPainter(${JSON.stringify(warm)}, null);
        const context = on.getContext('webgl2');
        const loss = context.getExtension('WEBGL_lose_context');
        const back = new Promise((done) => on.addEventListener('webglcontextrestored', () => setTimeout(done, 0)));
        loss.loseContext();
        await new Promise((done) => setTimeout(done, 50));
        loss.restoreContext();
        await back;
        return globalThis.readBack(on);
      })()`,
    );
    expectSame(Buffer.from(String(shown), 'base64'), expected, 'given back');
  });

  async function rendered(look: Look): Promise<Buffer> {
    const outPath = join(folder, 'rendered.png');
    const path = join(folder, 'blocks.dng');
    await pool.render({ path, kind: 'raw', look, size: 'half', format: 'png', outPath });
    return sharp(outPath).removeAlpha().raw().toBuffer();
  }

  /** RGBA from the top. */
  async function painted(how: 'webgl' | 'plain', look: Look, before: Look | null): Promise<Buffer> {
    const base64: unknown = await page.evaluate(`(() => {
      const { readExr, sceneFacts, compileLook, glPainter, wholeScene, lightOf, paintPlain } = globalThis.parts;
      const scene = readExr(globalThis.exr);
      const { profile } = sceneFacts(scene);
      globalThis.tables ??= (look) => ({ ...compileLook(look, profile, 'as-needed'), falloffEv: look.falloffEv });
      globalThis.textOf ??= (data) => {
        let text = '';
        for (let at = 0; at < data.length; at += 32768) text += String.fromCharCode(...data.subarray(at, at + 32768));
        return btoa(text);
      };
      globalThis.readBack ??= (canvas) => {
        const gl = canvas.getContext('webgl2');
        const { width, height } = canvas;
        const upsideDown = new Uint8Array(width * height * 4);
        gl.readPixels(0, 0, width, height, gl.RGBA, gl.UNSIGNED_BYTE, upsideDown);
        const data = new Uint8Array(upsideDown.length);
        for (let row = 0; row < height; row++)
          data.set(upsideDown.subarray((height - 1 - row) * width * 4, (height - row) * width * 4), row * width * 4);
        return globalThis.textOf(data);
      };
      globalThis.openPainter ??= (look, before) => {
        const canvas = document.createElement('canvas');
        const painter = glPainter(canvas);
        if (painter === null) throw new Error('no WebGL 2');
        painter.setScene(scene);
        painter.setTables('now', globalThis.tables(look));
        if (before !== null) painter.setTables('before', globalThis.tables(before));
        const drawing = { placed: wholeScene(scene), edge: before === null ? 0 : 0.25 };
        painter.draw(drawing);
        return { painter, canvas, drawing };
      };
      const look = ${JSON.stringify(look)};
      const before = ${JSON.stringify(before)};
      if (${JSON.stringify(how)} === 'plain') {
        const run = (each) => each === null ? null : lightOf(globalThis.tables(each));
        const drawing = { placed: wholeScene(scene), edge: before === null ? 0 : 0.25 };
        return globalThis.textOf(paintPlain(scene, run(look), run(before), drawing));
      }
      globalThis.kept = globalThis.openPainter(look, before);
      return globalThis.readBack(globalThis.kept.canvas);
    })()`);
    return Buffer.from(String(base64), 'base64');
  }
});

function expectSame(rgba: Buffer, rgb: Buffer, how: string): void {
  const differences = [...rgb].map((value, at) =>
    Math.abs(value - (rgba[Math.floor(at / 3) * 4 + (at % 3)] ?? Number.NaN)),
  );
  const beyond = differences.filter((difference) => !(difference <= codesMax));
  expect(beyond.length / rgb.length, how).toBeLessThanOrEqual(roundedShareMax);
  expect(Math.max(...beyond, 0), how).toBeLessThanOrEqual(roundedCodesMax);
}

async function bundled(entry: string): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: 'silent',
    root: join(import.meta.dirname, '../..'),
    build: { write: false, lib: { entry, formats: ['es'] }, minify: false },
  });
  const [first] = Array.isArray(built) ? built : [built];
  const chunk = first !== undefined && 'output' in first ? first.output[0] : undefined;
  if (chunk === undefined) throw new Error('the painter is bundled');
  return chunk.code;
}
