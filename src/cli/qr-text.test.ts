import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { expect, test } from 'vitest';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';
import { qrText } from './qr-text.ts';

test('what stands on the terminal is read back by another library (ZXing-C++)', async () => {
  const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
  await prepareZXingModule({
    overrides: { wasmBinary: new Uint8Array(readFileSync(wasm)).buffer },
    fireImmediately: true,
  });
  const text = 'https://192.168.7.2:8461/in#aaaa-bbbb-cccc-dddd-eeee-ffff-gggg';
  const [read] = await readBarcodes(pictureOf(qrText(text)), { formats: ['QRCode'] });
  expect(read?.text).toBe(text);
});

/** A character as a terminal draws it: an upper and a lower half, three pixels wide and high each. */
function pictureOf(text: string): ImageData {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: the colours are taken away, which are black on white
  const lines = text.split('\n').map((line) => [...line.replace(/\x1b\[[\d;]*m/g, '')]);
  const width = (lines[0]?.length ?? 0) * 3;
  const height = lines.length * 6;
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const character = lines[Math.floor(y / 6)]?.[Math.floor(x / 3)];
      const isUpper = y % 6 < 3;
      const isDark = character === '█' || character === (isUpper ? '▀' : '▄');
      if (isDark) data.fill(0, (y * width + x) * 4, (y * width + x) * 4 + 3);
    }
  }
  return { data, width, height, colorSpace: 'srgb' } as ImageData;
}
