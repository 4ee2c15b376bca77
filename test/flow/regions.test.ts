import { createHash } from 'node:crypto';
import { readdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Frame } from '../../src/contract/index.ts';
import { renderFrame } from '../../src/stand-in/index.ts';
import { curlStream, curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** Two JPEG codings of one picture at quality 90 and more, 8-bit units; a wrong place differs by tens. */
const sameCodesMean = 2;

describe.skipIf(!hasProgram('curl'))('parts of pictures at full size', () => {
  let station: RunningStation;
  let raw: Uint8Array;

  beforeAll(async () => {
    station = await startStation(await newHome());
    raw = (await renderFrame({ sizeMegapixels: 0.5 })).bytes;
  });

  afterAll(async () => {
    await station?.stop();
    await removeHome(station.home);
  });

  const frameInState = (name: string, state: Frame['picture']['state']): Promise<Frame> =>
    eventually(`${name} is ${state}`, async () =>
      (await station.frames()).find((frame) => frame.name === name && frame.picture.state === state),
    );

  const region = (id: string, query: string, headers: Record<string, string> = {}): Promise<Response> =>
    fetch(`${station.ready.web}/api/v1/frames/${id}/region?${query}`, { headers });

  const upload = async (name: string, bytes: Uint8Array): Promise<void> => {
    const file = join(station.home, name);
    await writeFile(file, bytes);
    const ran = await curlUpload(station, file, `/DCIM/100SETSD/${name}`);
    expect(ran.code, ran.stderr).toBe(0);
  };

  test('while a raw arrives they are its preview; as soon as it is developed, the raw, pixel for pixel', async () => {
    const sending = curlStream(station, '/DCIM/100SETSD/QMST0001.DNG');
    const held = Math.floor(raw.length * 0.4);
    sending.input.write(raw.subarray(0, held));
    const arriving = await frameInState('QMST0001.DNG', 'first-view');
    const query = 'left=0&top=0&width=256&height=256';
    const early = await region(arriving.id, query);
    expect(early.headers.get('setside-source')).toBe('preview');
    expect((await sharp(Buffer.from(await early.arrayBuffer())).metadata()).width).toBeLessThanOrEqual(257);
    sending.input.end(raw.subarray(held));
    expect((await sending.ended).code).toBe(0);
    const whole = await frameInState('QMST0001.DNG', 'rendered');
    const late = await region(whole.id, query);
    expect(late.headers.get('setside-source')).toBe('raw');
    expect(late.headers.get('etag')).toContain(createHash('sha256').update(raw).digest('hex'));
    const { width, height } = await sharp(Buffer.from(await late.arrayBuffer())).metadata();
    expect([width, height]).toEqual([256, 256]);
    const again = await region(whole.id, query, { 'if-none-match': late.headers.get('etag') ?? '' });
    expect(again.status).toBe(304);
  });

  test('a region past the picture’s edge ends there, one wholly outside is refused', async () => {
    const { id, picture } = await frameInState('QMST0001.DNG', 'rendered');
    if (picture.state !== 'rendered') throw new Error('expected it rendered');
    const corner = await region(id, `left=${picture.width - 100}&top=0&width=256&height=256`);
    expect((await sharp(Buffer.from(await corner.arrayBuffer())).metadata()).width).toBe(100);
    const outside = await region(id, `left=${picture.width}&top=0&width=256&height=256`);
    expect(await outside.json()).toMatchObject({ status: 400, code: 'region-outside' });
  });

  test('the whole picture comes with a look that is kept only, and never wider than it is rendered', async () => {
    const { id, picture } = await frameInState('QMST0001.DNG', 'rendered');
    if (picture.state !== 'rendered') throw new Error('expected it rendered');
    const whole = (query: string): Promise<Response> =>
      fetch(`${station.ready.web}/api/v1/frames/${id}/picture?${query}`);
    expect((await whole(`look=${picture.look}`)).status).toBe(200);
    const unkept = 'a'.repeat(64);
    expect(await (await whole(`look=${unkept}`)).json()).toMatchObject({ status: 400, code: 'no-look' });
    expect(await (await whole('look=abc')).json()).toMatchObject({ status: 400, code: 'bad-value' });
    const tags = ['width=16384', `width=${picture.width}`, ''].map(async (query) =>
      (await whole(query)).headers.get('etag'),
    );
    expect(new Set(await Promise.all(tags)).size).toBe(1);
  });

  test('of a camera’s own JPEG they are what libvips cuts out of it', async () => {
    const [width, height] = [800, 600];
    const pixels = Buffer.alloc(width * height * 3);
    for (let y = 0, at = 0; y < height; y++)
      for (let x = 0; x < width; x++, at += 3) pixels.set([(x * 255) / width, (y * 255) / height, 128], at);
    const jpeg = await sharp(pixels, { raw: { width, height, channels: 3 } })
      .jpeg({ quality: 95 })
      .toBuffer();
    await upload('QMST0002.JPG', jpeg);
    const { id } = await frameInState('QMST0002.JPG', 'rendered');
    const answer = await region(id, 'left=300&top=200&width=256&height=128&format=png');
    expect(answer.headers.get('setside-source')).toBe('raster');
    const given = await sharp(Buffer.from(await answer.arrayBuffer()))
      .removeAlpha()
      .raw()
      .toBuffer();
    const expected = await sharp(jpeg)
      .extract({ left: 300, top: 200, width: 256, height: 128 })
      .raw()
      .toBuffer();
    const sum = given.reduce((total, value, at) => total + Math.abs(value - (expected[at] ?? 0)), 0);
    expect(sum / given.length).toBeLessThan(sameCodesMean);
  });

  test('a file that is no picture gives the reason', async () => {
    await upload('NOTES.TXT', new TextEncoder().encode('no picture\n'));
    const text = await frameInState('NOTES.TXT', 'cannot');
    expect(await (await region(text.id, 'left=0&top=0&width=64&height=64')).json()).toMatchObject({
      status: 404,
      code: 'no-picture',
    });
  });

  test('they lie below renderings/, where everything may be deleted', async () => {
    expect((await readdir(join(station.home, 'renderings', 'regions'))).length).toBeGreaterThan(0);
  });
});
