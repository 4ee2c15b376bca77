import { afterEach, beforeEach, expect, test } from 'vitest';
import { sceneTilePx, sceneWidthMax, sceneWidthMin } from './routes/scene-routes.ts';
import { openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;
beforeEach(async () => {
  bench = await openWebBench();
  bench.desk.scenes.set('f1', {
    kind: 'picture',
    content: { kind: 'bytes', bytes: Uint8Array.of(0x76, 0x2f, 0x31, 0x01) },
    contentType: 'image/x-exr',
    etag: 'abc-as-shot-edge-1280',
  });
});
afterEach(() => bench.close());

const url = '/api/v1/frames/f1/scene';

test('the light is sent with its tag', async () => {
  const answer = await bench.app.inject(`${url}?width=1280`);
  expect(answer.statusCode).toBe(200);
  expect(answer.headers).toMatchObject({ 'content-type': 'image/x-exr', etag: '"abc-as-shot-edge-1280"' });
  const headers = { 'if-none-match': String(answer.headers.etag) };
  expect((await bench.app.inject({ url: `${url}?width=1280`, headers })).statusCode).toBe(304);
});

test('width and tile reach the desk', async () => {
  await bench.app.inject(`${url}?width=640`);
  await bench.app.inject(url);
  await bench.app.inject(`${url}?tile=3,12`);
  expect(bench.desk.asked).toEqual([
    ['scene', 'f1', { kind: 'whole', widthPx: 640 }],
    ['scene', 'f1', { kind: 'whole', widthPx: sceneWidthMax }],
    ['scene', 'f1', { kind: 'tile', edgePx: sceneTilePx, column: 3, row: 12 }],
  ]);
});

test('widths are bounded on both sides, tiles are two numbers', async () => {
  const status = async (query: string): Promise<number> =>
    (await bench.app.inject(`${url}?${query}`)).statusCode;
  expect(await status(`width=${sceneWidthMin}`)).toBe(200);
  expect(await status(`width=${sceneWidthMax}`)).toBe(200);
  expect(await status(`width=${sceneWidthMin - 1}`)).toBe(400);
  expect(await status(`width=${sceneWidthMax + 1}`)).toBe(400);
  expect(await status('tile=999,0')).toBe(200);
  for (const tile of ['1', '1,2,3', '-1,0', '1000,0', '1.5,2', 'a,b']) {
    expect(await status(`tile=${tile}`), tile).toBe(400);
  }
});

test('what cannot be shown is said', async () => {
  bench.desk.scenes.set('f2', { kind: 'none', finding: { code: 'picture.not-yet', args: { name: 'A' } } });
  expect((await bench.app.inject('/api/v1/frames/f2/scene')).statusCode).toBe(404);
  expect((await bench.app.inject('/api/v1/frames/f3/scene')).statusCode).toBe(404);
});
