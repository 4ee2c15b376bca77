import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { prepareZXingModule, type ReaderOptions, readBarcodes } from 'zxing-wasm/reader';
import type { FoundCode } from '../../slate/index.ts';

/** Grey values 0 … 255, rows from the top. */
export interface GreyPicture {
  readonly data: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** More codes in one picture than this are no sheet of shots. */
const codesMax = 64;

const options: ReaderOptions = {
  formats: ['QRCode'],
  tryHarder: true,
  // A code is found however it is turned; these are for codes of one dimension and for white on black.
  tryRotate: false,
  tryInvert: false,
  tryDownscale: true,
  maxNumberOfSymbols: codesMax,
};

/**
 * Starts the reader of codes in this thread, from the file beside the package: left alone it would fetch it from a server
 * on the Internet. Settles in some 20 ms; later calls share it.
 */
async function startReader(): Promise<void> {
  const path = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
  const { buffer, byteOffset, byteLength } = await readFile(path);
  await prepareZXingModule({
    overrides: { wasmBinary: buffer.slice(byteOffset, byteOffset + byteLength) },
    fireImmediately: true,
  });
}

let started: Promise<void> | null = null;

/** The QR codes of a picture (ISO/IEC 18004), in no order. 13 ms for 2000 by 1333 pixels, measured. */
export async function readCodes({ data, widthPx, heightPx }: GreyPicture): Promise<FoundCode[]> {
  started ??= startReader();
  await started;
  const picture = { data: rgbaOf(data), width: widthPx, height: heightPx, colorSpace: 'srgb' } as const;
  const found = await readBarcodes(picture, options);
  return found
    .filter(({ isValid }) => isValid)
    .map(({ text, position }) => ({
      text,
      corners: [position.topLeft, position.topRight, position.bottomRight, position.bottomLeft],
    }));
}

function rgbaOf(grey: Uint8Array): Uint8ClampedArray<ArrayBuffer> {
  const words = new Uint32Array(grey.length);
  // Four times the same byte is the same in either order of bytes.
  for (let n = 0; n < grey.length; n += 1) words[n] = (grey[n] ?? 0) * 0x01010101;
  return new Uint8ClampedArray(words.buffer);
}
