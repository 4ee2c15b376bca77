/**
 * A minimal DNG for tests: one IFD, 16-bit mosaic in one strip, little-endian (TIFF 6.0, TIFF/EP, DNG 1.4). Written here
 * and not borrowed from the stand-in, so that the two do not share a mistake.
 */
export interface DngOptions {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly values: Uint16Array;
  /** Already demosaiced: three values a pixel, photometric LinearRaw. */
  readonly isLinear?: boolean;
  /** CFAPattern: 0 red, 1 green, 2 blue. Empty: photometric 1, a monochrome picture. */
  readonly pattern?: readonly number[];
  /** Rows and columns of the pattern; default 2 x 2. */
  readonly patternDim?: readonly [number, number];
  readonly blackLevels?: readonly number[];
  readonly whiteLevel?: number;
  readonly orientation?: number;
  readonly asShotNeutral?: readonly [number, number, number] | null;
  readonly colorMatrix?: readonly number[] | null;
  readonly baselineExposure?: number;
  /** In place of `colorMatrix`: what is stated under two lights. */
  readonly colour?: DngColour;
  /** OpcodeList1 to 3. */
  readonly opcodes?: readonly (Uint8Array | null)[];
  /** ActiveArea: top, left, bottom, right. */
  readonly activeArea?: readonly [number, number, number, number];
  readonly asShotWhiteXY?: readonly [number, number];
  readonly crop?: readonly [left: number, top: number, width: number, height: number];
  /** The mosaic as lossless JPEG; default uncompressed. */
  readonly losslessJpeg?: Uint8Array;
}

/** Colour tags of DNG 1.4, chapter 6; matrices row by row. Index 0 is the first light. */
export interface DngColour {
  readonly illuminants: readonly number[];
  readonly colorMatrices: readonly (readonly number[])[];
  readonly forwardMatrices?: readonly (readonly number[])[];
  readonly cameraCalibrations?: readonly (readonly number[])[];
  readonly analogBalance?: readonly number[];
  /** Of the camera's calibration, and of the matrices. */
  readonly signatures?: readonly [string, string];
}

interface Entry {
  readonly tag: number;
  readonly type: number;
  readonly count: number;
  readonly bytes: Uint8Array;
}

export function writeDng(options: DngOptions): Uint8Array<ArrayBuffer> {
  const entries = entriesOf(options).sort((a, b) => a.tag - b.tag);
  const pixels = pixelBytes(options);
  const ifdBytes = 2 + entries.length * 12 + 4;
  let end = 8 + ifdBytes;
  const offsets = entries.map(({ bytes }) => {
    if (bytes.length <= 4) return 0;
    const offset = end;
    end += (bytes.length + 1) & ~1;
    return offset;
  });
  const file = new Uint8Array(end + pixels.length);
  const view = new DataView(file.buffer);
  file.set([0x49, 0x49, 42, 0, 8, 0, 0, 0]);
  view.setUint16(8, entries.length, true);
  entries.forEach(({ tag, type, count, bytes }, index) => {
    const at = 10 + index * 12;
    view.setUint16(at, tag, true);
    view.setUint16(at + 2, type, true);
    view.setUint32(at + 4, count, true);
    const offset = offsets[index] ?? 0;
    if (tag === stripOffsets) view.setUint32(at + 8, end, true);
    else if (offset === 0) file.set(bytes, at + 8);
    else {
      view.setUint32(at + 8, offset, true);
      file.set(bytes, offset);
    }
  });
  file.set(pixels, end);
  return file;
}

function pixelBytes({ values, losslessJpeg }: DngOptions): Uint8Array {
  return losslessJpeg ?? new Uint8Array(values.buffer, values.byteOffset, values.byteLength);
}

const stripOffsets = 273;

function entriesOf(options: DngOptions): Entry[] {
  const { widthPx, heightPx, pattern = [0, 1, 1, 2], blackLevels = [512], crop } = options;
  const samples = options.isLinear === true ? 3 : 1;
  const { asShotNeutral = [0.5, 1, 0.625], colorMatrix = defaultMatrix } = options;
  const mosaic = pattern.length > 0 && samples === 1;
  return [
    longs(254, [0]),
    longs(256, [widthPx]),
    longs(257, [heightPx]),
    shorts(258, Array(samples).fill(16)),
    shorts(259, [options.losslessJpeg === undefined ? 1 : 7]),
    shorts(262, [mosaic ? 32_803 : 34_892]), // color filter array, or LinearRaw of one sample or three
    ascii(271, 'Maker'),
    ascii(272, 'Test'),
    longs(stripOffsets, [0]),
    shorts(274, [options.orientation ?? 1]),
    shorts(277, [samples]),
    longs(278, [heightPx]),
    longs(279, [pixelBytes(options).length]),
    shorts(284, [1]),
    ...(mosaic ? [shorts(33_421, options.patternDim ?? [2, 2]), bytes(33_422, pattern)] : []),
    bytes(50_706, [1, 4, 0, 0]), // DNGVersion
    ascii(50_708, 'Maker Test'), // UniqueCameraModel
    ...(blackLevels.length === 4 ? [shorts(50_713, [2, 2])] : []), // BlackLevelRepeatDim
    shorts(50_714, samples === 3 ? Array(3).fill(blackLevels[0] ?? 0) : blackLevels),
    shorts(50_717, Array(samples).fill(options.whiteLevel ?? 16_383)),
    ...(crop === undefined ? [] : [longs(50_719, crop.slice(0, 2)), longs(50_720, crop.slice(2))]),
    ...(options.colour === undefined ? [] : colourEntries(options.colour)),
    ...(colorMatrix === null || options.colour !== undefined
      ? []
      : [signedRationals(50_721, colorMatrix), shorts(50_778, [21])]),
    ...(options.baselineExposure === undefined ? [] : [signedRationals(50_730, [options.baselineExposure])]),
    ...(options.activeArea === undefined ? [] : [longs(50_829, options.activeArea)]),
    ...(options.opcodes ?? []).flatMap((list, index) =>
      list === null
        ? []
        : [{ tag: [51_008, 51_009, 51_022][index] ?? 0, type: 7, count: list.length, bytes: list }],
    ),
    ...(options.asShotWhiteXY === undefined ? [] : [rationals(50_729, options.asShotWhiteXY)]),
    ...(asShotNeutral === null ? [] : [rationals(50_728, asShotNeutral)]),
  ];
}

function colourEntries(colour: DngColour): Entry[] {
  const { illuminants, colorMatrices, forwardMatrices = [], cameraCalibrations = [] } = colour;
  return [
    ...colorMatrices.map((matrix, index) => signedRationals(50_721 + index, matrix)),
    ...cameraCalibrations.map((matrix, index) => signedRationals(50_723 + index, matrix)),
    ...(colour.analogBalance === undefined ? [] : [rationals(50_727, colour.analogBalance)]),
    ...illuminants.map((code, index) => shorts(50_778 + index, [code])),
    ...(colour.signatures ?? []).map((text, index) => ascii(50_931 + index, text)),
    ...forwardMatrices.map((matrix, index) => signedRationals(50_964 + index, matrix)),
  ];
}

/** Camera = sRGB primaries seen with the gains 0.5, 1, 0.625: XYZ to linear sRGB, rows scaled (IEC 61966-2-1). */
const defaultMatrix = [1.6205, -0.7688, -0.2493, -0.9692, 1.876, 0.0416, 0.0348, -0.1275, 0.6606];

function bytes(tag: number, values: readonly number[]): Entry {
  return { tag, type: 1, count: values.length, bytes: Uint8Array.from(values) };
}

function ascii(tag: number, text: string): Entry {
  return { ...bytes(tag, [...new TextEncoder().encode(text), 0]), type: 2 };
}

function shorts(tag: number, values: readonly number[]): Entry {
  return { tag, type: 3, count: values.length, bytes: new Uint8Array(Uint16Array.from(values).buffer) };
}

function longs(tag: number, values: readonly number[]): Entry {
  return { tag, type: 4, count: values.length, bytes: new Uint8Array(Uint32Array.from(values).buffer) };
}

function rationals(tag: number, values: readonly number[]): Entry {
  const words = Uint32Array.from(values.flatMap((value) => [Math.round(value * 100_000_000), 100_000_000]));
  return { tag, type: 5, count: values.length, bytes: new Uint8Array(words.buffer) };
}

function signedRationals(tag: number, values: readonly number[]): Entry {
  const words = Int32Array.from(values.flatMap((value) => [Math.round(value * 100_000_000), 100_000_000]));
  return { tag, type: 10, count: values.length, bytes: new Uint8Array(words.buffer) };
}
