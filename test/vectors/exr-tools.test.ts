import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { encodeExr } from '../../src/image/exr.ts';
import { hasProgram } from '../flow/clients.ts';

/** Rec. 2020 (ITU-R BT.2020-2, table 3). */
const primaries = [0.708, 0.292, 0.17, 0.797, 0.131, 0.046, 0.3127, 0.329] as const;
const [widthPx, heightPx] = [61, 37];

/** Finite half floats of every size and both signs (IEEE 754-2008, binary16): exponents up to 30, a different one each. */
const halves = Uint16Array.from(
  { length: widthPx * heightPx * 3 },
  (_, at) => ((at % 2) << 15) | ((at * 7919) % (31 << 10)),
);

test.skipIf(!hasProgram('exrheader') || !hasProgram('exrmaketiled'))(
  'the tools of the OpenEXR library, where they are installed, read a scene to the bit',
  () => {
    const folder = mkdtempSync(join(tmpdir(), 'setside-exr-'));
    try {
      const scene = {
        ...{ widthPx, heightPx, halves, leftPx: 100, topPx: 50 },
        ...{ whole: { widthPx: 400, heightPx: 300 }, notes: { light: 'raw', fullWidth: 800 } },
      };
      const [own, tiled] = [join(folder, 'own.exr'), join(folder, 'tiled.exr')];
      writeFileSync(own, encodeExr(scene, primaries));
      const header = execFileSync('exrheader', [own], { encoding: 'utf8' });
      expect(header).toMatch(/dataWindow \(type box2i\): \(100 50\) - \(160 86\)/);
      expect(header).toMatch(/displayWindow \(type box2i\): \(0 0\) - \(399 299\)/);
      expect(header).toMatch(/light \(type string\): "raw"/);
      expect(header).toMatch(/red\s+\(0\.708 0\.292\)/);
      // The library decodes every pixel and writes it bare, in one tile: rows of B, then G, then R.
      const as = ['-o', '-z', 'none', '-t', String(widthPx), String(heightPx)];
      execFileSync('exrmaketiled', [...as, own, tiled]);
      const bytes = readFileSync(tiled);
      const at = bytes.length - halves.byteLength;
      const theirs = new Uint16Array(
        bytes.buffer.slice(bytes.byteOffset + at, bytes.byteOffset + bytes.length),
      );
      const expected = halves.map((_, index) => {
        const [row, within] = [Math.floor(index / (widthPx * 3)), index % (widthPx * 3)];
        const [channel, column] = [2 - Math.floor(within / widthPx), within % widthPx];
        return halves[(row * widthPx + column) * 3 + channel] ?? 0;
      });
      expect(theirs).toEqual(expected);
    } finally {
      rmSync(folder, { recursive: true });
    }
  },
);
