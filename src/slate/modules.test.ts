import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { beforeAll, describe, expect, test } from 'vitest';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';
import { codeModules, modulesPath, quietModules } from './modules.ts';
import { writeSlate } from './payload.ts';

/** The outside judge: ZXing-C++ (zxing-wasm), which shares no code with the library that makes the modules. */
beforeAll(async () => {
  const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
  await prepareZXingModule({
    overrides: { wasmBinary: new Uint8Array(readFileSync(wasm)).buffer },
    fireImmediately: true,
  });
});

const texts = [
  writeSlate({ kind: 'shot', job: 'KILN-12', shot: 'jug' }),
  writeSlate({ kind: 'shot', job: 'Łódź', shot: '器' }),
  writeSlate({ kind: 'shot', job: 'J'.repeat(40), shot: 's'.repeat(64) }),
  writeSlate({ kind: 'clock', atMs: 1_790_841_600_123, refreshMs: 200, unsureMs: 4 }),
];

describe.each(texts)('%s', (text) => {
  test('is a code that another library reads, of version 1 to 13 and level M (ISO/IEC 18004)', async () => {
    const modules = codeModules(text);
    expect((modules.size - 17) % 4).toBe(0);
    const [read] = await readBarcodes(picture(modules, 4), { formats: ['QRCode'] });
    expect(read?.text).toBe(text);
    expect(read?.isValid).toBe(true);
    expect(JSON.stringify(read)).toContain('"M"');
    expect(modules.size).toBeLessThanOrEqual(69);
  });

  test('the path covers the dark modules and no other', () => {
    const modules = codeModules(text);
    const covered = new Uint8Array(modules.dark.length);
    for (const [, x, y, length] of modulesPath(modules).matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g)) {
      const start = (Number(y) - quietModules) * modules.size + Number(x) - quietModules;
      for (let n = 0; n < Number(length); n += 1) covered[start + n] = (covered[start + n] ?? 0) + 1;
    }
    expect(covered).toEqual(modules.dark);
  });
});

/** What the reader takes: RGBA, rows from the top. */
function picture(
  { size, dark }: ReturnType<typeof codeModules>,
  scale: number,
): { data: Uint8ClampedArray<ArrayBuffer>; width: number; height: number; colorSpace: 'srgb' } {
  const edge = (size + 2 * quietModules) * scale;
  const data = new Uint8ClampedArray(edge * edge * 4).fill(255);
  for (let y = 0; y < edge; y += 1) {
    for (let x = 0; x < edge; x += 1) {
      const row = Math.floor(y / scale) - quietModules;
      const column = Math.floor(x / scale) - quietModules;
      const inside = row >= 0 && column >= 0 && row < size && column < size;
      if (inside && dark[row * size + column] === 1) data.fill(0, (y * edge + x) * 4, (y * edge + x) * 4 + 3);
    }
  }
  return { data, width: edge, height: edge, colorSpace: 'srgb' };
}
