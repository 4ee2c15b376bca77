import { adaptWhite } from './adaptation.ts';
import { type Matrix3, multiplyMatrices, type Vector3 } from './matrix.ts';
import type { RgbSpace } from './rgb-spaces.ts';
import { linearTransfer, type TransferFunction } from './transfer-functions.ts';
import { pcsXyz, xyToXyz } from './white-points.ts';

export interface IccProfileOptions {
  /** 4: parametric curves, exact, default. 2: sampled curves, for readers from before 2001. */
  readonly version?: 2 | 4;
  /** Leave the transfer function out: the profile of linear pixels. Default false. */
  readonly linear?: boolean;
}

/**
 * The bytes of an ICC display profile (matrix and tone curves) for an RGB space: about 0.6 kB, or 2.7 kB as version 2.
 * Its creation time is a constant, so that equal spaces give equal bytes. ICC.1:2022 (version 4), ICC.1:2001-04 (version 2).
 */
export function encodeIccProfile(space: RgbSpace, options: IccProfileOptions = {}): Uint8Array<ArrayBuffer> {
  const version = options.version ?? 4;
  const transfer = options.linear === true ? linearTransfer : space.transfer;
  const title = options.linear === true ? `${space.title}, linear` : space.title;
  const toPcs = adaptWhite(xyToXyz(space.white), pcsXyz);
  const [rX, gX, bX, rY, gY, bY, rZ, gZ, bZ] = multiplyMatrices(toPcs, space.toXyz);
  const curve = version === 4 ? parametricCurve(transfer) : sampledCurve(transfer);
  const text = version === 4 ? multiLocalizedUnicode : plainText;
  return layOut(version, [
    ['desc', version === 4 ? multiLocalizedUnicode(title) : textDescription(title)],
    ['cprt', text('No copyright, use freely')],
    // Version 4 wants the white of the connection space here and the original white inside 'chad' (ICC.1:2022, 9.2.36).
    ['wtpt', xyzTag(version === 4 ? pcsXyz : xyToXyz(space.white))],
    ...(version === 4 ? ([['chad', fixedArray(toPcs)]] as const) : []),
    ['rXYZ', xyzTag([rX, rY, rZ])],
    ['gXYZ', xyzTag([gX, gY, gZ])],
    ['bXYZ', xyzTag([bX, bY, bZ])],
    ['rTRC', curve],
    ['gTRC', curve],
    ['bTRC', curve],
  ]);
}

type Tag = readonly [signature: string, data: Uint8Array];

const headerBytes = 128;

/** Header (ICC.1:2022, 7.2), tag table (7.3), tag data on 4-byte borders; equal data is stored once. */
function layOut(version: 2 | 4, tags: readonly Tag[]): Uint8Array<ArrayBuffer> {
  const offsets = new Map<Uint8Array, number>();
  let end = headerBytes + 4 + 12 * tags.length;
  for (const [, data] of tags) {
    if (offsets.has(data)) continue;
    offsets.set(data, end);
    end += (data.length + 3) & ~3;
  }
  const bytes = new Uint8Array(end);
  const view = new DataView(bytes.buffer);
  writeHeader(view, bytes, version);
  view.setUint32(headerBytes, tags.length);
  tags.forEach(([signature, data], index) => {
    const offset = offsets.get(data) ?? 0;
    const entry = headerBytes + 4 + 12 * index;
    writeAscii(bytes, entry, signature);
    view.setUint32(entry + 4, offset);
    view.setUint32(entry + 8, data.length);
    bytes.set(data, offset);
  });
  return bytes;
}

function writeHeader(view: DataView, bytes: Uint8Array, version: 2 | 4): void {
  view.setUint32(0, bytes.length);
  view.setUint32(8, version === 4 ? 0x0440_0000 : 0x0240_0000);
  writeAscii(bytes, 12, 'mntr');
  writeAscii(bytes, 16, 'RGB ');
  writeAscii(bytes, 20, 'XYZ ');
  // dateTimeNumber: a constant, 2026-01-01; a profile of a standard space has no birthday.
  [2026, 1, 1, 0, 0, 0].forEach((value, index) => {
    view.setUint16(24 + 2 * index, value);
  });
  writeAscii(bytes, 36, 'acsp');
  // Rendering intent 1 (media-relative colorimetric), then the white of the connection space.
  view.setUint32(64, 1);
  writeXyz(view, 68, pcsXyz);
}

/** parametricCurveType, ICC.1:2022 10.18, function type 0 or 3. */
function parametricCurve({ parametric }: TransferFunction): Uint8Array {
  const { g, a, b, c, d } = parametric;
  const whole = a !== undefined && b !== undefined && c !== undefined && d !== undefined;
  const numbers = whole ? [g, a, b, c, d] : [g];
  const bytes = new Uint8Array(12 + 4 * numbers.length);
  const view = new DataView(bytes.buffer);
  writeAscii(bytes, 0, 'para');
  view.setUint16(8, whole ? 3 : 0);
  numbers.forEach((value, index) => {
    view.setInt32(12 + 4 * index, toFixed16(value));
  });
  return bytes;
}

/** curveType, ICC.1:2022 10.6: 1024 samples keep an 8-bit reader within a tenth of a code of the formula. */
function sampledCurve(transfer: TransferFunction): Uint8Array {
  const count = 1024;
  const bytes = new Uint8Array(12 + 2 * count);
  const view = new DataView(bytes.buffer);
  writeAscii(bytes, 0, 'curv');
  view.setUint32(8, count);
  for (let index = 0; index < count; index++) {
    view.setUint16(12 + 2 * index, Math.round(65_535 * transfer.decode(index / (count - 1))));
  }
  return bytes;
}

function xyzTag(xyz: Vector3): Uint8Array {
  const bytes = new Uint8Array(20);
  writeAscii(bytes, 0, 'XYZ ');
  writeXyz(new DataView(bytes.buffer), 8, xyz);
  return bytes;
}

function fixedArray(matrix: Matrix3): Uint8Array {
  const bytes = new Uint8Array(8 + 4 * matrix.length);
  const view = new DataView(bytes.buffer);
  writeAscii(bytes, 0, 'sf32');
  matrix.forEach((value, index) => {
    view.setInt32(8 + 4 * index, toFixed16(value));
  });
  return bytes;
}

/** multiLocalizedUnicodeType, ICC.1:2022 10.15, one record: en-US. */
function multiLocalizedUnicode(text: string): Uint8Array {
  const bytes = new Uint8Array(28 + 2 * text.length);
  const view = new DataView(bytes.buffer);
  writeAscii(bytes, 0, 'mluc');
  view.setUint32(8, 1);
  view.setUint32(12, 12);
  writeAscii(bytes, 16, 'enUS');
  view.setUint32(20, 2 * text.length);
  view.setUint32(24, 28);
  for (let index = 0; index < text.length; index++) {
    view.setUint16(28 + 2 * index, text.charCodeAt(index));
  }
  return bytes;
}

/** textType, ICC.1:2001-04 6.5.18: ASCII closed by a zero byte. */
function plainText(text: string): Uint8Array {
  const bytes = new Uint8Array(8 + text.length + 1);
  writeAscii(bytes, 0, 'text');
  writeAscii(bytes, 8, text);
  return bytes;
}

/** textDescriptionType, ICC.1:2001-04 6.5.17: ASCII, then an empty Unicode and an empty Macintosh form. */
function textDescription(text: string): Uint8Array {
  const bytes = new Uint8Array(12 + text.length + 1 + 8 + 3 + 67);
  writeAscii(bytes, 0, 'desc');
  new DataView(bytes.buffer).setUint32(8, text.length + 1);
  writeAscii(bytes, 12, text);
  return bytes;
}

function writeXyz(view: DataView, offset: number, xyz: Vector3): void {
  xyz.forEach((value, index) => {
    view.setInt32(offset + 4 * index, toFixed16(value));
  });
}

/** s15Fixed16Number. */
function toFixed16(value: number): number {
  return Math.round(value * 65_536);
}

function writeAscii(bytes: Uint8Array, offset: number, text: string): void {
  for (let index = 0; index < text.length; index++) bytes[offset + index] = text.charCodeAt(index);
}
