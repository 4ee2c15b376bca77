import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { TileLoader } from './tile-loader.ts';

interface Asked {
  readonly address: string;
  readonly signal: AbortSignal;
  readonly come: (bitmap: ImageBitmap) => void;
  readonly fail: (reason: Error) => void;
}

let asked: Asked[];
let closed: string[];
let told: number;
beforeEach(() => {
  asked = [];
  closed = [];
  told = 0;
  vi.useFakeTimers();
});
afterEach(() => vi.useRealTimers());

/** A square of 10 pixels: 400 bytes. It is only what the loader looks at. */
function bitmap(name: string): ImageBitmap {
  return { width: 10, height: 10, close: () => closed.push(name) } as unknown as ImageBitmap;
}

function loaderOf(cacheBytesMax = 10_000, lanes = 2): TileLoader {
  return new TileLoader({
    cacheBytesMax,
    lanes,
    fetchTile: (address, signal) =>
      new Promise((come, fail) => {
        asked.push({ address, signal, come, fail });
      }),
    onTile: () => {
      told += 1;
    },
  });
}

const names = (): string[] => asked.map(({ address }) => address);

async function comes(address: string): Promise<void> {
  asked.findLast((one) => one.address === address)?.come(bitmap(address));
  await vi.advanceTimersByTimeAsync(0);
}

async function fails(address: string): Promise<void> {
  asked.findLast((one) => one.address === address)?.fail(new Error('503'));
  await vi.advanceTimersByTimeAsync(0);
}

test('tiles are asked for in the order of the wish, as many at a time as there are lanes', async () => {
  const loader = loaderOf();
  loader.want(['a', 'b', 'c', 'd']);
  expect(names()).toEqual(['a', 'b']);
  await comes('b');
  expect(names()).toEqual(['a', 'b', 'c']);
  expect(loader.get('b')).not.toBeNull();
  expect(loader.missing).toBe(3);
  expect(told).toBe(1);
});

test('what left the view is cancelled and gives its lane to the next', async () => {
  const loader = loaderOf();
  loader.want(['a', 'b']);
  loader.want(['b', 'c']);
  expect(asked[0]?.signal.aborted).toBe(true);
  expect(asked[1]?.signal.aborted).toBe(false);
  expect(names()).toEqual(['a', 'b', 'c']);
  await comes('a');
  expect(loader.get('a')).toBeNull();
  expect(closed).toEqual(['a']);
});

test('a tile that is here is not asked for again', async () => {
  const loader = loaderOf();
  loader.want(['a']);
  await comes('a');
  loader.want([]);
  loader.want(['a']);
  expect(names()).toEqual(['a']);
});

test('the cache keeps to its bound to the byte: the longest unused go first, wanted ones never', async () => {
  const loader = loaderOf(1200, 9);
  loader.want(['a', 'b', 'c']);
  for (const name of ['a', 'b', 'c']) await comes(name);
  expect(closed).toEqual([]);
  expect(loader.bytes).toBe(1200);
  loader.want(['b', 'd']);
  await comes('d');
  expect(closed).toEqual(['a']);
  loader.want(['e', 'f', 'g', 'h']);
  for (const name of ['e', 'f', 'g', 'h']) await comes(name);
  expect(loader.bytes).toBe(1600);
  for (const name of ['e', 'f', 'g', 'h']) expect(loader.get(name)).not.toBeNull();
});

test('a tile that does not come is asked for again after a while, others in its place meanwhile', async () => {
  const loader = loaderOf(10_000, 1);
  loader.want(['a', 'b']);
  await fails('a');
  expect(names()).toEqual(['a', 'b']);
  await comes('b');
  await vi.advanceTimersByTimeAsync(500);
  expect(names()).toEqual(['a', 'b', 'a']);
  await fails('a');
  await vi.advanceTimersByTimeAsync(1999);
  expect(names()).toHaveLength(3);
  await vi.advanceTimersByTimeAsync(1);
  expect(names()).toHaveLength(4);
});

test('one that failed and is not wanted any longer is forgotten', async () => {
  const loader = loaderOf();
  loader.want(['a']);
  await fails('a');
  loader.want([]);
  await vi.advanceTimersByTimeAsync(60_000);
  expect(names()).toEqual(['a']);
});

test('closing gives up what is coming and closes what is here', async () => {
  const loader = loaderOf();
  loader.want(['a', 'b']);
  await comes('a');
  loader.close();
  expect(closed).toEqual(['a']);
  expect(asked[1]?.signal.aborted).toBe(true);
  expect(loader.bytes).toBe(0);
});
