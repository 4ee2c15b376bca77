import { createHash } from 'node:crypto';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Frame } from '../../src/contract/index.ts';
import { sentence } from '../../src/words/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { hasShared, sharedPath } from '../shared.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';
import { readPicture } from './shown-picture.ts';

const ready = hasShared() && hasProgram('curl');

describe.skipIf(!ready)('real files through the whole station', () => {
  let station: RunningStation;

  beforeAll(async () => {
    station = await startStation(await newHome());
  });

  afterAll(async () => {
    await station.stop();
    await removeHome(station.home);
  });

  const settled = (name: string, state: Frame['picture']['state']): Promise<Frame> =>
    eventually(`${name} is ${state}`, async () =>
      (await station.frames()).find((frame) => frame.name === name && frame.picture.state === state),
    );

  const upload = async (sample: string, name = sample): Promise<string> => {
    const answer = await curlUpload(station, sharedPath(`samples/${sample}`), `/DCIM/100REAL_/${name}`);
    expect(answer.code, answer.stderr).toBe(0);
    return answer.stderr;
  };

  /** RFC 959 4.2.2: 226 is the reply to a requested file action that was successful. */
  test('a real raw is durable before the 226, byte for byte what was sent', async () => {
    const replies = await upload('real-chart-4mp.dng');
    expect(replies).toMatch(/< 226 /);
    // The reply has come, so with nothing waited for the file must be there.
    const frame = (await station.frames()).find(({ name }) => name === 'real-chart-4mp.dng');
    const file = frame?.files[0];
    const sent = await readFile(sharedPath('samples/real-chart-4mp.dng'));
    expect(file).toMatchObject({ size: sent.length, state: 'whole' });
    expect(file?.sha256).toBe(createHash('sha256').update(sent).digest('hex'));
    const back = await fetch(`${station.ready.web}/api/v1/frames/${frame?.id}/files/real-chart-4mp.dng`);
    expect(Buffer.from(await back.arrayBuffer()).equals(sent)).toBe(true);
    expect(frame?.verdicts.arrived.judgement).toBe('doubt');
  });

  test('it is developed at half size, upright, 867 x 578 (samples/SOURCES.md)', async () => {
    const frame = await settled('real-chart-4mp.dng', 'rendered');
    const answer = await fetch(`${station.ready.web}/api/v1/frames/${frame.id}/picture`);
    expect(answer.headers.get('content-type')).toBe('image/jpeg');
    const { width, height, icc } = await sharp(Buffer.from(await answer.arrayBuffer())).metadata();
    expect(Math.abs((width ?? 0) - 867)).toBeLessThanOrEqual(4);
    expect(Math.abs((height ?? 0) - 578)).toBeLessThanOrEqual(4);
    expect(icc).toBeDefined();
    expect(frame.verdicts).toMatchObject({
      sharp: { judgement: 'unknown' },
      exposed: { judgement: 'unknown' },
      inPlace: { judgement: 'unknown' },
      colour: { judgement: 'unknown' },
    });
  });

  test.skipIf(!hasBrowser)('its pixels are on the canvas of the page, read back', async () => {
    const frame = await settled('real-chart-4mp.dng', 'rendered');
    const browser = await launchBrowser();
    try {
      const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
      await page.goto(station.ready.web);
      const shown = await eventually('the rendering is painted', async () => {
        const picture = await readPicture(page);
        return picture?.frame === frame.id && picture.state === 'rendered' ? picture : null;
      });
      // The judge is libvips: the same rendering, scaled to the canvas by another program.
      const answer = await fetch(`${station.ready.web}/api/v1/frames/${frame.id}/picture`);
      const expected = await sharp(Buffer.from(await answer.arrayBuffer()))
        .resize(shown.width, shown.height, { fit: 'fill' })
        .removeAlpha()
        .raw()
        .toBuffer();
      expect(meanDifference(shown.pixels, expected)).toBeLessThan(3);
    } finally {
      await browser.close();
    }
  });

  test('a raw that cannot be decoded is kept and says why', async () => {
    await upload('undecodable-vc5.gpr');
    const frame = await settled('undecodable-vc5.gpr', 'cannot');
    expect(frame.files[0]?.size).toBe(3_056_384);
    if (frame.picture.state !== 'cannot') throw new Error('unreachable: settled() waited for it');
    expect(sentence(frame.picture.reason)).toMatch(/kept safe/);
  });

  test('a JPEG with a raw file’s name is shown as the JPEG it is', async () => {
    await upload('jpeg-named-nef-5.nef');
    const frame = await settled('jpeg-named-nef-5.nef', 'rendered');
    expect(frame.kind).toBe('jpeg');
    expect(frame.picture).toMatchObject({ source: 'raster', look: '' });
  });

  test('the heads of raw files are proved cut: not acknowledged once, damaged when sent the same again', async () => {
    for (const head of [
      'head-only-1.arw',
      'head-only-2.cr2',
      'head-only-3.dng',
      'head-only-4.nef',
      'head-only-6.dng',
    ]) {
      const first = await curlUpload(station, sharedPath(`samples/${head}`), `/DCIM/100REAL_/${head}`);
      expect(first.stderr, head).toMatch(/< (451|426) /);
      expect(first.code, head).not.toBe(0);
      await upload(head);
      const frame = await eventually(`${head} is damaged`, async () =>
        (await station.frames()).find(({ name, files }) => name === head && files[0]?.state === 'damaged'),
      );
      expect(frame.verdicts.arrived.judgement).toBe('bad');
    }
  });

  test('a text file is kept and shown as what it is', async () => {
    const file = join(station.home, 'notes-for-upload.txt');
    await writeFile(file, 'Lens wiped at noon.\n');
    const answer = await curlUpload(station, file, '/DCIM/100REAL_/NOTES.TXT');
    expect(answer.code, answer.stderr).toBe(0);
    const frame = await settled('NOTES.TXT', 'cannot');
    expect(frame).toMatchObject({ kind: 'text', files: [{ state: 'unproved', size: 20 }] });
    expect(frame.verdicts.arrived.judgement).toBe('unknown');
  });
});

/** Mean absolute difference per channel, code values of 255; `rgba` against `rgb` of the same pixels. */
function meanDifference(rgba: Uint8ClampedArray, rgb: Uint8Array): number {
  let sum = 0;
  const pixels = rgb.length / 3;
  for (let i = 0; i < pixels; i++) {
    for (let channel = 0; channel < 3; channel++) {
      sum += Math.abs((rgba[i * 4 + channel] ?? 0) - (rgb[i * 3 + channel] ?? 0));
    }
  }
  return sum / rgb.length;
}
