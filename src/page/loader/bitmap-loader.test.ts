import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { BitmapLoader, downloadBytesMax } from './bitmap-loader.ts';

/** What stands in for the browser's decoder: bitmaps of 100 × 100, so 40,000 bytes each, that know when they are closed. */
const decodedBytes = 100 * 100 * 4;
const closed: string[] = [];
const fetched: string[] = [];
let announcedBytes = 10;

beforeEach(() => {
  vi.stubGlobal('fetch', async (address: string) => {
    fetched.push(address);
    if (address === 'missing') return new Response(null, { status: 404 });
    return new Response(address, { headers: { 'content-length': String(announcedBytes) } });
  });
  vi.stubGlobal('createImageBitmap', async (blob: Blob) => {
    const name = await blob.text();
    return { width: 100, height: 100, close: () => closed.push(name) };
  });
});
afterEach(() => {
  vi.unstubAllGlobals();
  closed.length = 0;
  fetched.length = 0;
  announcedBytes = 10;
});

const loaderFor = (pictures: number) =>
  new BitmapLoader({ cacheBytesMax: pictures * decodedBytes, decodeWidthPx: null });
/** Closing waits for the promise of the decoder. */
const settled = () => new Promise((resolve) => setImmediate(resolve));

test('the latest used pictures are kept within the bound, the others are closed', async () => {
  const loader = loaderFor(2);
  for (const name of ['a', 'b', 'a', 'c']) (await loader.hold(name)).letGo();
  await settled();
  expect(closed).toEqual(['b']);
  expect(loader.bytes).toBe(2 * decodedBytes);
  (await loader.hold('a')).letGo();
  expect(fetched).toEqual(['a', 'b', 'c']);
});

test('a picture that is held is never closed, however many come after it', async () => {
  const loader = loaderFor(1);
  const held = await loader.hold('held');
  for (const name of ['b', 'c']) (await loader.hold(name)).letGo();
  await settled();
  expect(closed).toEqual(['b', 'c']);
  held.letGo();
  held.letGo();
  (await loader.hold('d')).letGo();
  await settled();
  expect(closed).toEqual(['b', 'c', 'held']);
});

test('two who ask for one picture at once share one download', async () => {
  const loader = loaderFor(1);
  const [one, other] = await Promise.all([loader.hold('a'), loader.hold('a')]);
  expect(one.bitmap).toBe(other.bitmap);
  expect(fetched).toEqual(['a']);
});

test('a picture that is not there is asked for again the next time', async () => {
  const loader = loaderFor(1);
  await expect(loader.hold('missing')).rejects.toThrow('expected a picture at missing, got 404');
  await expect(loader.hold('missing')).rejects.toThrow();
  expect(fetched).toEqual(['missing', 'missing']);
});

test('a picture announced past the bound is refused before it is read', async () => {
  announcedBytes = downloadBytesMax;
  (await loaderFor(1).hold('just-fits')).letGo();
  announcedBytes = downloadBytesMax + 1;
  await expect(loaderFor(1).hold('too-large')).rejects.toThrow('expected a picture of a screen’s size');
});
