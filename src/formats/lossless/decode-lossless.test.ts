import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { encodeLosslessJpeg, type LosslessForm } from '../../../test/render/lossless-jpeg.ts';
import { binaryBytes, decodeLossless } from './decode-lossless.ts';
import { decodeLosslessPlainly } from './decode-reference.ts';
import { binarySha256, sourceSha256 } from './lossless-binary.ts';
import { losslessHead } from './lossless-head.ts';

// The encoder (test/render/lossless-jpeg.ts) follows ITU-T T.81 and shares nothing with what is tested; LibRaw is asked about
// whole files in test/render/decoder.test.ts.

/** Numbers that repeat, evenly spread over 0 … 1 (Park and Miller, Commun. ACM 31 (10), 1988). */
function numbersFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16_807) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}

function noise(widthPx: number, heightPx: number, most: number, seed = 7): Uint16Array {
  const next = numbersFrom(seed);
  return Uint16Array.from({ length: widthPx * heightPx }, () => Math.floor(next() * (most + 1)));
}

function decoded(jpeg: Uint8Array, widthPx: number, heightPx: number): Uint16Array | null {
  const one = { pieceWidthPx: widthPx, pieceHeightPx: heightPx };
  return decodeLossless({ widthPx, heightPx, ...one, pieces: [jpeg] });
}

function plainly(jpeg: Uint8Array): Uint16Array | null {
  const head = losslessHead(jpeg);
  return head === null ? null : decodeLosslessPlainly(jpeg, head);
}

const forms: readonly LosslessForm[] = [
  {},
  { tables: 2 },
  { components: 1 },
  { precision: 14 },
  { precision: 12, components: 1 },
];

test.each(forms)('%j: what was encoded comes back, from the kernel and from the plain form', (form) => {
  // Noise of the whole range has differences of all categories, 16 among them (32,768 in 16 bits).
  const values = noise(38, 70, 2 ** (form.precision ?? 16) - 1);
  values[40] = 0;
  values[41] = 0;
  const flat = new Uint16Array(38 * 70).fill(300);
  for (const samples of [values, flat]) {
    const jpeg = encodeLosslessJpeg(samples, 38, 70, form);
    expect(plainly(jpeg)).toEqual(samples);
    expect(decoded(jpeg, 38, 70)).toEqual(samples);
  }
});

test('the largest difference has no bits behind its code (T.81 table H.2)', () => {
  const samples = Uint16Array.of(0, 0, 0x8000, 0x8000, 0, 0);
  const jpeg = encodeLosslessJpeg(samples, 6, 1);
  expect(plainly(jpeg)).toEqual(samples);
  expect(decoded(jpeg, 6, 1)).toEqual(samples);
});

test('pieces lie side by side, and what hangs over is left away', () => {
  const [widthPx, heightPx, edge] = [20, 13, 8];
  const whole = noise(24, 16, 16_383);
  const piece = (left: number, top: number): Uint8Array =>
    encodeLosslessJpeg(
      Uint16Array.from(
        { length: edge * edge },
        (_, at) => whole[(top + Math.floor(at / edge)) * 24 + left + (at % edge)] ?? 0,
      ),
      edge,
      edge,
    );
  const pieces = [0, 8].flatMap((top) => [0, 8, 16].map((left) => piece(left, top)));
  const shown = Uint16Array.from(
    { length: widthPx * heightPx },
    (_, at) => whole[Math.floor(at / widthPx) * 24 + (at % widthPx)] ?? 0,
  );
  const picture = { widthPx, heightPx, pieceWidthPx: edge, pieceHeightPx: edge };
  expect(decodeLossless({ ...picture, pieces })).toEqual(shown);
  expect(decodeLossless({ ...picture, pieces: pieces.slice(1) })).toBeNull();
});

test('strips may end with a lower one', () => {
  const whole = noise(12, 10, 4095);
  const strip = (top: number, rows: number): Uint8Array =>
    encodeLosslessJpeg(whole.subarray(top * 12, (top + rows) * 12), 12, rows);
  const picture = { widthPx: 12, heightPx: 10, pieceWidthPx: 12, pieceHeightPx: 4 };
  const pieces = [strip(0, 4), strip(4, 4), strip(8, 2)];
  expect(decodeLossless({ ...picture, pieces })).toEqual(whole);
});

test('cut at any byte it is null, or whole where only the end marker is missing', () => {
  const values = noise(16, 9, 16_383);
  const jpeg = encodeLosslessJpeg(values, 16, 9);
  for (let length = 0; length < jpeg.length; length++) {
    const cut = jpeg.subarray(0, length);
    const found = decoded(cut, 16, 9);
    expect(found, `${length} bytes`).toEqual(length < jpeg.length - 2 ? null : values);
    expect(plainly(cut), `${length} bytes, plainly`).toEqual(found);
  }
});

test('a broken byte brings no exception, and kernel and plain form agree on it', () => {
  const next = numbersFrom(11);
  let broken = 0;
  for (const form of forms) {
    const jpeg = encodeLosslessJpeg(noise(16, 9, 4095), 16, 9, form);
    for (let trial = 0; trial < 300; trial++) {
      const bytes = jpeg.slice();
      bytes[Math.floor(next() * bytes.length)] = Math.floor(next() * 256);
      const head = losslessHead(bytes);
      // Another size is another picture.
      if (head !== null && (head.rows !== 9 || head.rowSamples !== 16)) continue;
      const found = decoded(bytes, 16, 9);
      if (found === null) broken++;
      expect(found).toEqual(plainly(bytes));
    }
  }
  expect(broken).toBeGreaterThan(100);
});

test.each([
  ['a baseline JPEG', 3, 0xc0],
  ['three components', 11, 3],
  ['a component that is sampled otherwise', 13, 0x21],
])('%s is left to another decoder', (_, at, byte) => {
  const jpeg = encodeLosslessJpeg(noise(16, 9, 4095), 16, 9);
  expect(decoded(jpeg, 16, 9)).not.toBeNull();
  jpeg[at] = byte;
  expect(losslessHead(jpeg)).toBeNull();
});

test('the binary is the one that was built from the source beside it', () => {
  const source = readFileSync(join(import.meta.dirname, 'assembly/lossless.ts'));
  expect(createHash('sha256').update(source).digest('hex')).toBe(sourceSha256);
  expect(createHash('sha256').update(binaryBytes()).digest('hex')).toBe(binarySha256);
});

test('a machine that refuses the module gets null', async () => {
  const jpeg = encodeLosslessJpeg(noise(16, 9, 4095), 16, 9);
  vi.resetModules();
  vi.stubGlobal('WebAssembly', undefined);
  try {
    const fresh: typeof import('./decode-lossless.ts') = await import('./decode-lossless.ts');
    const picture = { widthPx: 16, heightPx: 9, pieceWidthPx: 16, pieceHeightPx: 9, pieces: [jpeg] };
    expect(fresh.decodeLossless(picture)).toBeNull();
  } finally {
    vi.unstubAllGlobals();
    vi.resetModules();
  }
});
