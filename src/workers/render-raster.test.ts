import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, expect, test } from 'vitest';
import { lookSchema } from '../look/index.ts';
import { keepingRasters } from './raster-source.ts';
import type { RenderAnswer, RenderJob } from './render-messages.ts';
import { type OutputJob, renderRasterOutput } from './render-output.ts';
import { renderRaster } from './render-raster.ts';

const folder = mkdtempSync(join(tmpdir(), 'setside-raster-'));
afterAll(() => rmSync(folder, { recursive: true }));

const [width, height] = [90, 60];
const code = (row: number, column: number, channel: number): number =>
  (row * 3 + column * 2 + channel * 40) % 256;
const path = join(folder, 'made.png');
const data = Uint8Array.from({ length: width * height * 3 }, (_, i) =>
  code(Math.floor(i / 3 / width), Math.floor(i / 3) % width, i % 3),
);

const geometry = {
  flip: 'left-right',
  crop: { across: 1, down: 1, size: 0.5, centreX: 0.4, centreY: 0.5 },
} as const;
const look = lookSchema.parse({ version: 2, title: 'Cut', exposureEv: 2, geometry });

async function rendered(
  job: Partial<OutputJob>,
): Promise<{ readonly answer: RenderAnswer; readonly data: Buffer }> {
  writeFileSync(
    path,
    await sharp(data, { raw: { width, height, channels: 3 } })
      .png()
      .toBuffer(),
  );
  const outPath = join(folder, 'out.png');
  const whole: RenderJob = { path, kind: 'raster', look, size: 'full', format: 'png', outPath, ...job };
  const { output } = job;
  const answer = await (output === undefined
    ? renderRaster(keepingRasters(), whole)
    : renderRasterOutput({ ...whole, output }));
  return { answer, data: await sharp(outPath).raw().toBuffer() };
}

test.each([
  ['for a screen', {}],
  ['in a space and depth', { output: { space: 'srgb', depth: 8 } }],
] as const)(
  'of a look, a finished picture takes the geometry: its own pixels, and it is said (%s)',
  async (_, job) => {
    const { answer, data: found } = await rendered(job);
    // Half of the largest square, 30 px, about 36 across and 30 down: columns 21 to 50, seen from the right.
    expect(answer).toMatchObject({ widthPx: 30, heightPx: 30, renderedWidthPx: 30, renderedHeightPx: 30 });
    expect(answer.issues).toEqual([{ code: 'develop.only-geometry', args: {} }]);
    for (const [row, column] of [
      [0, 0],
      [7, 20],
      [29, 29],
    ] as const) {
      for (const channel of [0, 1, 2]) {
        const wanted = code(15 + row, 50 - column, channel);
        // There and back through linear light of 16 bits in another space costs a code.
        expect(Math.abs((found[(row * 30 + column) * 3 + channel] ?? 0) - wanted)).toBeLessThanOrEqual(1);
      }
    }
  },
);

test('sizes and regions of a finished picture with geometry are those of the picture that comes out', async () => {
  expect((await rendered({ size: 'half' })).answer).toMatchObject({
    renderedWidthPx: 15,
    renderedHeightPx: 15,
  });
  expect((await rendered({ size: { longEdgePx: 20 } })).answer).toMatchObject({
    renderedWidthPx: 20,
    widthPx: 30,
  });
  const region = { leftPx: 10, topPx: 5, widthPx: 8, heightPx: 6 };
  const part = await rendered({ size: { region } });
  const whole = await rendered({});
  expect(part.data.subarray(0, 24)).toEqual(whole.data.subarray((5 * 30 + 10) * 3, (5 * 30 + 18) * 3));
});

test('a look without geometry leaves a finished picture as it is, and that is said', async () => {
  const { answer, data: found } = await rendered({
    look: { ...look, geometry: lookSchema.parse({ version: 2, title: 'None' }).geometry },
  });
  expect(answer.issues).toEqual([{ code: 'develop.look-not-applied', args: {} }]);
  expect(found).toEqual(Buffer.from(data));
});
