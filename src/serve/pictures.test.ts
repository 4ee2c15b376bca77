import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { pictureWidthMax, pictureWidthMin } from './routes/picture-routes.ts';
import { openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;
beforeEach(async () => {
  bench = await openWebBench();
});
afterEach(() => bench.close());

const bytes = Uint8Array.from([0xff, 0xd8, 0xff, 0xd9]);
const url = '/api/v1/frames/f1/picture';

async function givePicture(etag = 'abc-1600-jpeg'): Promise<void> {
  const path = join(bench.dir, 'rendering.jpg');
  await writeFile(path, bytes);
  bench.desk.pictures.set('f1', {
    kind: 'picture',
    content: { kind: 'file', path },
    contentType: 'image/jpeg',
    etag,
  });
}

test('a rendering is sent byte for byte with its type, length and tag, for this browser’s cache only', async () => {
  await givePicture();
  const answer = await bench.app.inject(url);
  expect(answer.statusCode).toBe(200);
  expect(new Uint8Array(answer.rawPayload)).toEqual(bytes);
  expect(answer.headers).toMatchObject({
    'content-type': 'image/jpeg',
    'content-length': '4',
    etag: '"abc-1600-jpeg"',
    'cache-control': 'private, no-cache',
    'x-content-type-options': 'nosniff',
  });
});

test('a browser that has it is told so in 304 without a body; another tag gets the bytes', async () => {
  await givePicture();
  const same = await bench.app.inject({ url, headers: { 'if-none-match': 'W/"other", "abc-1600-jpeg"' } });
  expect(same.statusCode).toBe(304);
  expect(same.body).toBe('');
  // RFC 9110 section 15.4.5: what a 200 would have said of caching is said again.
  expect(same.headers).toMatchObject({ etag: '"abc-1600-jpeg"', 'cache-control': 'private, no-cache' });
  expect((await bench.app.inject({ url, headers: { 'if-none-match': '"other"' } })).statusCode).toBe(200);
});

test('HEAD says what GET would, without the bytes (RFC 9110 section 9.3.2)', async () => {
  await givePicture();
  const answer = await bench.app.inject({ method: 'HEAD', url });
  expect(answer.statusCode).toBe(200);
  expect(answer.rawPayload).toHaveLength(0);
  expect(answer.headers).toMatchObject({ 'content-length': '4', etag: '"abc-1600-jpeg"' });
});

test('width, format and look reach the desk; JPEG at full size where they are left out', async () => {
  await bench.app.inject(`${url}?width=1600&format=webp&look=${'0a'.repeat(32)}`);
  await bench.app.inject(`${url}?v=3`);
  expect(bench.desk.asked).toEqual([
    ['picture', 'f1', { width: 1600, format: 'webp', look: '0a'.repeat(32) }],
    ['picture', 'f1', { format: 'jpeg' }],
  ]);
});

test('widths are bounded on both sides, formats and looks are known ones', async () => {
  await givePicture();
  for (const width of [pictureWidthMin, pictureWidthMax]) {
    expect((await bench.app.inject(`${url}?width=${width}`)).statusCode, String(width)).toBe(200);
  }
  const refused = [
    `width=${pictureWidthMin - 1}`,
    `width=${pictureWidthMax + 1}`,
    'width=100.5',
    'width=1e400',
    'format=svg',
    'look=../x',
    'look=',
    `look=${'0'.repeat(65)}`,
    'lok=0af',
    'v=x',
  ];
  for (const query of refused) {
    const answer = await bench.app.inject(`${url}?${query}`);
    expect(answer.statusCode, query).toBe(400);
    expect(answer.json()).toMatchObject({ code: 'bad-value' });
  }
});

test('a frame that cannot be shown says why, as a sentence and as a finding', async () => {
  const finding = { code: 'picture.empty', args: { name: 'X.DNG' } };
  bench.desk.pictures.set('f1', { kind: 'none', finding });
  const answer = await bench.app.inject(url);
  expect(answer.statusCode).toBe(404);
  expect(answer.json()).toMatchObject({ code: 'no-picture', detail: 'X.DNG is empty.', finding });
});

test('no such frame is 404', async () => {
  expect((await bench.app.inject(url)).json()).toMatchObject({ status: 404, code: 'not-found' });
});

test('a rendering that is gone from the disk is a 500 that names no path', async () => {
  await givePicture();
  bench.desk.pictures.set('f1', {
    kind: 'picture',
    content: { kind: 'file', path: join(bench.dir, 'gone.jpg') },
    contentType: 'image/jpeg',
    etag: 'x',
  });
  const answer = await bench.app.inject(url);
  expect(answer.statusCode).toBe(500);
  expect(answer.headers['content-type']).toBe('application/problem+json');
  expect(answer.body).not.toContain('gone');
});

test('a first view is sent from memory, and its tag changes with the version and with the run', async () => {
  const view = { content: { kind: 'bytes' as const, bytes }, contentType: 'image/jpeg' };
  const firstView = '/api/v1/frames/f1/first-view';
  expect((await bench.app.inject(firstView)).json()).toMatchObject({ status: 404, code: 'no-picture' });
  bench.desk.firstViews.set('f1', { ...view, version: 1 });
  const first = await bench.app.inject(firstView);
  expect(new Uint8Array(first.rawPayload)).toEqual(bytes);
  expect(first.headers['content-length']).toBe('4');
  const headers = { 'if-none-match': String(first.headers.etag) };
  expect((await bench.app.inject({ url: firstView, headers })).statusCode).toBe(304);
  bench.desk.firstViews.set('f1', { ...view, version: 2 });
  expect((await bench.app.inject({ url: firstView, headers })).statusCode).toBe(200);

  const later = await openWebBench({}, { run: 'run2' });
  later.desk.firstViews.set('f1', { ...view, version: 1 });
  expect((await later.app.inject({ url: firstView, headers })).statusCode).toBe(200);
  await later.close();
});
