import sharp from 'sharp';
import { beforeAll, expect, test } from 'vitest';
import { sourceOfBytes } from './byte-source.ts';
import { inspect } from './inspect.ts';

/** Written by libvips, so that the bytes come from outside. */
let png: Uint8Array;
let webp: Uint8Array;

beforeAll(async () => {
  const picture = sharp({ create: { width: 40, height: 30, channels: 3, background: '#884422' } });
  png = await picture.clone().png().toBuffer();
  webp = await picture.clone().webp().toBuffer();
});

test('a PNG and a WebP that libvips wrote are whole', () => {
  expect(inspect(sourceOfBytes(png))).toMatchObject({ kind: 'png', wholeness: { kind: 'whole' } });
  expect(inspect(sourceOfBytes(webp))).toMatchObject({ kind: 'webp', wholeness: { kind: 'whole' } });
});

test('a WebP cut anywhere behind its head is proved cut, with the length its head says', () => {
  for (let length = 16; length < webp.length; length++) {
    expect(inspect(sourceOfBytes(webp.subarray(0, length))).wholeness, String(length)).toEqual({
      kind: 'cut',
      expectedBytes: webp.length,
    });
  }
});

test('a PNG cut anywhere, or with bytes behind its end, is never said to be whole', () => {
  for (let length = 16; length < png.length; length++) {
    expect(inspect(sourceOfBytes(png.subarray(0, length))).wholeness.kind, String(length)).not.toBe('whole');
  }
  const longer = new Uint8Array(png.length + 3);
  longer.set(png);
  expect(inspect(sourceOfBytes(longer)).wholeness.kind).toBe('unknown');
});

test('a PNG that is still arriving is not whole because its last bytes look so', () => {
  expect(inspect(sourceOfBytes(png, false)).wholeness.kind).toBe('unknown');
});
