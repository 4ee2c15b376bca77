import { execFile } from 'node:child_process';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { deflateSync } from 'node:zlib';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { actList, type Job, job as jobSchema } from '../../src/contract/index.ts';
import { layoutEdgePxMax } from '../../src/workers/index.ts';
import { newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const run = promisify(execFile);

/** Layout pictures over the real station: kept like originals, shown, refused with a reason. */
describe('layout pictures', () => {
  let home: string;
  let copies: string;
  let station: RunningStation;

  beforeAll(async () => {
    [home, copies] = await Promise.all([newHome(), newHome()]);
    station = await startStation(home, ['--copy', copies]);
    await send('POST', '/jobs', { code: 'QM-26' });
    await send('POST', '/jobs/QM-26/shots', { name: 'Mug' });
  });

  afterAll(async () => {
    await station.stop();
    await Promise.all([removeHome(home), removeHome(copies)]);
  });

  function send(method: string, path: string, body?: unknown): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      ...(body === undefined
        ? {}
        : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
    });
  }

  function put(bytes: Uint8Array<ArrayBuffer>, type = 'image/png', shot = 'mug'): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1/jobs/QM-26/shots/${shot}/layout`, {
      method: 'PUT',
      headers: { 'content-type': type },
      body: bytes,
    });
  }

  const job = async (code = 'QM-26'): Promise<Job> =>
    jobSchema.parse(await (await send('GET', `/jobs/${code}`)).json());
  const layout = async (code = 'QM-26'): Promise<string | null | undefined> =>
    (await job(code)).shots[0]?.layout;
  const drawn = (colour: string, kind: 'png' | 'jpeg' | 'webp' | 'tiff' = 'png'): Promise<Buffer> =>
    sharp({ create: { width: 400, height: 300, channels: 3, background: colour } })
      .toFormat(kind)
      .toBuffer();
  const originals = async (folder: string): Promise<string[]> =>
    (await readdir(folder, { recursive: true })).filter((name) =>
      /_layouts.*\.(PNG|JPG|WEBP|TIF)$/.test(name),
    );

  test('a layout is kept byte for byte in the job’s folder, copied, and shown at the size asked for', async () => {
    const bytes = new Uint8Array(await drawn('#cc8844'));
    expect((await put(bytes)).status).toBe(200);
    expect(await layout()).toMatch(/^[A-Za-z0-9_-]+$/);
    const [name = ''] = await originals(join(home, 'jobs/QM-26/originals'));
    expect(new Uint8Array(await readFile(join(home, 'jobs/QM-26/originals', name)))).toEqual(bytes);
    await expect.poll(() => originals(copies), { timeout: 20_000 }).toHaveLength(1);
    const shown = await send('GET', '/jobs/QM-26/shots/mug/layout?width=200');
    expect(shown.headers.get('content-type')).toBe('image/jpeg');
    const { data, info } = await sharp(await shown.arrayBuffer())
      .raw()
      .toBuffer({ resolveWithObject: true });
    expect(info.width).toBeGreaterThanOrEqual(200);
    expect(info.width).toBeLessThanOrEqual(256);
    for (const [channel, value] of [0xcc, 0x88, 0x44].entries())
      expect(Math.abs((data[channel] ?? 0) - value)).toBeLessThanOrEqual(3);
  });

  test('it is no frame of the day', async () => {
    expect(await station.frames()).toEqual([]);
  });

  test.each(['jpeg', 'webp', 'tiff'] as const)('%s is taken, whatever it is called', async (kind) => {
    expect((await put(new Uint8Array(await drawn('#224466', kind)), 'application/octet-stream')).status).toBe(
      200,
    );
    expect((await send('GET', '/jobs/QM-26/shots/mug/layout?width=200')).status).toBe(200);
  });

  test('another one takes its place, and both stay kept; undo brings the first back', async () => {
    const before = await layout();
    const kept = (await originals(join(home, 'jobs'))).length;
    await put(new Uint8Array(await drawn('#118833')));
    expect(await layout()).not.toBe(before);
    expect(await originals(join(home, 'jobs'))).toHaveLength(kept + 1);
    const { acts } = actList.parse(await (await send('GET', '/undo')).json());
    expect(acts[0]?.what).toEqual({ code: 'job.layout', args: { job: 'QM-26', shot: 'Mug' } });
    await send('POST', '/undo', {});
    expect(await layout()).toBe(before);
  });

  test('the same bytes again are the same layout', async () => {
    const bytes = new Uint8Array(await drawn('#118833'));
    await put(bytes);
    const first = await layout();
    const kept = (await originals(join(home, 'jobs'))).length;
    await put(new Uint8Array(await drawn('#445566')));
    await put(bytes);
    expect(await layout()).toBe(first);
    expect(await originals(join(home, 'jobs'))).toHaveLength(kept + 1);
  });

  test('an upload over a version that has changed is refused, and a shot that is not there is not found', async () => {
    const bytes = new Uint8Array(await drawn('#999999'));
    const address = `${station.ready.web}/api/v1/jobs/QM-26/shots/mug/layout`;
    const headers = { 'content-type': 'image/png', 'if-match': '"1"' };
    expect((await fetch(address, { method: 'PUT', headers, body: bytes })).status).toBe(412);
    expect((await put(bytes, 'image/png', 'vase')).status).toBe(404);
    expect((await send('GET', '/jobs/QM-26/shots/vase/layout')).status).toBe(404);
  });

  describe('what is refused, each with a sentence, changes nothing', () => {
    test.each([
      ['no bytes at all', async () => new Uint8Array(), 400, 'file-empty'],
      ['text', async () => text('a layout, described'), 415, 'not-a-picture'],
      ['a PDF', async () => text('%PDF-1.7\n1 0 obj\n<<>>\nendobj\n'), 415, 'not-a-picture'],
      [
        'a drawing in SVG',
        async () => text('<svg xmlns="http://www.w3.org/2000/svg"/>'),
        415,
        'not-a-picture',
      ],
      [
        '30,000 x 30,000 pixels in a few bytes',
        async () => pngHeader(30_000, 30_000, rows()),
        413,
        'picture-too-large',
      ],
      [
        'one pixel longer than the longest',
        async () => pngHeader(layoutEdgePxMax + 1, 1, rows()),
        413,
        'picture-too-large',
      ],
      ['a header without a picture', async () => pngHeader(100, 100), 422, 'picture-cannot-decode'],
      ['a picture cut short', async () => (await noise()).subarray(0, 4000), 422, 'picture-cannot-decode'],
      [
        'a hundred kilobytes that would unpack to fifty megabytes, cut short',
        async () => bomb(),
        422,
        'picture-cannot-decode',
      ],
    ] as const)('%s', async (_what, make, status, code) => {
      const before = await job();
      const kept = (await originals(join(home, 'jobs'))).length;
      const answer = await put(new Uint8Array(await make()));
      const problem = (await answer.json()) as { code: string; title: string; cure: string | null };
      expect({ status: answer.status, code: problem.code }).toEqual({ status, code });
      expect(problem.cure).toMatch(/\.$/);
      expect(await job()).toEqual(before);
      expect(await originals(join(home, 'jobs'))).toHaveLength(kept);
    });
  });

  test('a job that copies an earlier one has its layouts', async () => {
    await send('POST', '/jobs', { code: 'QM-27', copyOf: 'QM-26' });
    expect(await layout('QM-27')).toBe(await layout());
    expect((await send('GET', '/jobs/QM-27/shots/mug/layout?width=200')).status).toBe(200);
  });

  test('after a start and a register made anew it is still there', async () => {
    const before = await layout();
    await station.stop();
    const { stdout } = await run(process.execPath, [binary, 'verify', '--rebuild', '--home', home, '--json']);
    expect(JSON.parse(stdout)).toMatchObject({ same: true });
    station = await startStation(home, ['--copy', copies]);
    expect(await layout()).toBe(before);
    expect((await send('GET', '/jobs/QM-26/shots/mug/layout?width=200')).status).toBe(200);
    expect(await station.frames()).toEqual([]);
  });
});

const text = (words: string): Uint8Array => new TextEncoder().encode(words);

async function noise(): Promise<Buffer> {
  const data = Buffer.from(Array.from({ length: 100 * 100 * 3 }, (_, n) => (n * 7919) % 251));
  return sharp(data, { raw: { width: 100, height: 100, channels: 3 } })
    .png({ compressionLevel: 0 })
    .toBuffer();
}

/** Signature and header of a PNG (W3C PNG, third edition, 11.2.1), and an end; the checks are right. */
function pngHeader(width: number, height: number, ...more: readonly Buffer[]): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 2, 0, 0, 0], 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([signature, chunk('IHDR', header), ...more, chunk('IEND', Buffer.alloc(0))]);
}

/** The first rows of a black picture. */
function rows(): Buffer {
  return chunk('IDAT', deflateSync(Buffer.alloc(100_000)));
}

/** 16 megapixels, and half of what a hundred megabytes of zeros press to where their rows should be. */
function bomb(): Buffer {
  const zeros = deflateSync(Buffer.alloc(100_000_000));
  return pngHeader(4000, 4000, chunk('IDAT', zeros.subarray(0, zeros.length >> 1)));
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, check]);
}

/** CRC-32 of PNG (W3C PNG, annex D), bit by bit. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc & 1) === 0 ? crc >>> 1 : (crc >>> 1) ^ 0xedb88320;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
