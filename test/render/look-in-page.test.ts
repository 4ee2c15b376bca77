import { join } from 'node:path';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { compileLook, defaultLook, lookSchema, tableHash } from '../../src/look/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';

/** Each part at several strengths: a last digit that falls out differently shows in one of them. */
const looks = [0.2, 0.5, 0.8, 1.1].map((strength) =>
  lookSchema.parse({
    ...defaultLook,
    exposureEv: 0.35 * strength,
    balance: { from: 'temperature', temperatureK: 4300 + 1000 * strength, duv: 0.003 * strength },
    flare: 0.01 * strength,
    curve: { pivot: 0.18, gamma: 1.3 + 0.1 * strength, toeEv: 4.1, shoulder: 1.1, whiteEv: 2.9 },
    cdl: { slope: [1 + 0.04 * strength, 1, 0.97], power: [1.02, 1, 0.98], saturation: 1.1 },
    bands: [{ hueDeg: 145, chroma: -0.2, turnDeg: -8 * strength, lightness: -0.2 }],
    monochrome: { amount: 0.2 * strength, bands: [{ hueDeg: 30, ev: 0.5 }] },
    tint: { darkChroma: 0.02 * strength, lightChroma: 0.015 },
  }),
);

/** The room as a page would load it, in one module. */
async function bundleRoom(): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: 'silent',
    root: join(import.meta.dirname, '../..'),
    build: { write: false, lib: { entry: 'src/look/index.ts', formats: ['es'] }, minify: false },
  });
  const [first] = Array.isArray(built) ? built : [built];
  const chunk = first !== undefined && 'output' in first ? first.output[0] : undefined;
  if (chunk === undefined) throw new Error('the room is bundled');
  return chunk.code;
}

describe.skipIf(!hasBrowser)('a look in a page', () => {
  let browser: Awaited<ReturnType<typeof launchBrowser>>;
  let code: string;

  beforeAll(async () => {
    [browser, code] = await Promise.all([launchBrowser(), bundleRoom()]);
  });

  afterAll(() => browser.close());

  test('the page compiles a look to the very table that the station compiles', async () => {
    const page = await browser.newPage();
    const address = `data:text/javascript;base64,${Buffer.from(code).toString('base64')}`;
    // As text: the test's own build would put its way of importing into a function.
    const inPage: unknown = await page.evaluate(`import(${JSON.stringify(address)}).then((room) =>
      ${JSON.stringify(looks)}.map((look) => room.tableHash(room.compileLook(room.readLook(look).look))))`);
    expect(inPage).toEqual(looks.map((look) => tableHash(compileLook(look))));
  });
});
