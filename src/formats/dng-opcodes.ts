/**
 * The opcode lists of a DNG (DNG 1.7.1, chapter 7): what its maker wants done to the picture, as data. Numbers are
 * big-endian whatever the file is. Areas and points count pixels of the picture that a list is for: list 1 the stored one,
 * lists 2 and 3 the active area.
 */
export type DngOpcode =
  | { readonly kind: 'warp-rectilinear'; readonly planes: readonly WarpPlane[]; readonly centre: Centre }
  | { readonly kind: 'warp-fisheye'; readonly planes: readonly FisheyePlane[]; readonly centre: Centre }
  | { readonly kind: 'fix-vignette-radial'; readonly k: Five; readonly centre: Centre }
  | { readonly kind: 'fix-bad-pixels-constant'; readonly constant: number }
  | {
      readonly kind: 'fix-bad-pixels-list';
      readonly points: readonly (readonly [row: number, column: number])[];
      readonly areas: readonly Area[];
    }
  | { readonly kind: 'trim-bounds'; readonly area: Area }
  | GainMapOpcode;

/** Shares of the picture's width and height. */
export type Centre = readonly [x: number, y: number];
export type Five = readonly [number, number, number, number, number];
/** Top and left belong to it, bottom and right do not. */
export type Area = readonly [top: number, left: number, bottom: number, right: number];

/** One colour's way from where it is shown to where it is found, by the distance from the centre; 1 is the far corner. */
export interface WarpPlane {
  /** Factor of the distance: coefficients of its powers 0, 1, 2 … */
  readonly radial: readonly number[];
  readonly tangential: readonly [number, number];
  /** Distances within which the polynomial holds; beyond, the nearest counts. */
  readonly range: readonly [number, number];
  /** Whether the factor is one over the polynomial. */
  readonly isReciprocal: boolean;
}

/** Coefficients of the angle's powers 1, 3, 5, 7. */
export type FisheyePlane = readonly [number, number, number, number];

export interface GainMapOpcode {
  readonly kind: 'gain-map';
  readonly area: Area;
  readonly plane: number;
  readonly planes: number;
  readonly rowPitch: number;
  readonly columnPitch: number;
  readonly pointsV: number;
  readonly pointsH: number;
  readonly spacing: readonly [v: number, h: number];
  readonly origin: readonly [v: number, h: number];
  readonly mapPlanes: number;
  /** `gains[(v * pointsH + h) * mapPlanes + plane]`. */
  readonly gains: Float32Array;
}

export interface OpcodeList {
  /** In the order in which they are to be done. */
  readonly opcodes: readonly DngOpcode[];
  /** Ids of those that are not known here, or make no sense, and may be skipped by their own word. */
  readonly skipped: readonly number[];
  /** Ids of those that may not be skipped: without them the picture is not as its maker wants it. */
  readonly missed: readonly number[];
}

/** Bounds on a list. Makers write two to six opcodes; the largest are gain maps of some thousand points. */
export const opcodeLimits = {
  listBytesMax: 4 * 2 ** 20,
  opcodesMax: 64,
  badPointsMax: 100_000,
  badAreasMax: 1_000,
} as const;

/** Parses a list. Never throws: what is cut short or makes no sense counts as one that is not known. */
export function parseOpcodes(bytes: Uint8Array): OpcodeList {
  const opcodes: DngOpcode[] = [];
  const skipped: number[] = [];
  const missed: number[] = [];
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = bytes.length >= 4 && bytes.length <= opcodeLimits.listBytesMax ? view.getUint32(0) : 0;
  let at = 4;
  for (let index = 0; index < Math.min(count, opcodeLimits.opcodesMax); index++) {
    if (at + 16 > bytes.length) break;
    const id = view.getUint32(at);
    const isOptional = (view.getUint32(at + 8) & 1) === 1;
    const length = view.getUint32(at + 12);
    const reader = new Numbers(view, at + 16, Math.min(bytes.length, at + 16 + length));
    const parsed = at + 16 + length > bytes.length ? null : (parsers.get(id)?.(reader) ?? null);
    if (parsed !== null) opcodes.push(parsed);
    else (isOptional ? skipped : missed).push(id);
    at += 16 + length;
  }
  return { opcodes, skipped, missed };
}

/** Reads on; what lies beyond the end is NaN, and is found when a parser asks whether all is sound. */
class Numbers {
  readonly #view: DataView;
  readonly #end: number;
  #at: number;

  constructor(view: DataView, start: number, end: number) {
    this.#view = view;
    this.#at = start;
    this.#end = end;
  }

  get left(): number {
    return this.#end - this.#at;
  }

  long(): number {
    return this.#next(4, (at) => this.#view.getUint32(at));
  }

  double(): number {
    return this.#next(8, (at) => this.#view.getFloat64(at));
  }

  float(): number {
    return this.#next(4, (at) => this.#view.getFloat32(at));
  }

  doubles(count: number): number[] {
    return Array.from({ length: count }, () => this.double());
  }

  #next(bytes: number, read: (at: number) => number): number {
    const at = this.#at;
    this.#at += bytes;
    return this.#at <= this.#end ? read(at) : Number.NaN;
  }
}

/** Beyond any lens; what multiplies light or distance by more is no correction. */
const coefficientMost = 1e3;

function areSound(numbers: readonly number[]): boolean {
  return numbers.every((value) => Math.abs(value) <= coefficientMost);
}

function centreOf([x = Number.NaN, y = Number.NaN]: readonly number[]): Centre | null {
  return x >= -1 && x <= 2 && y >= -1 && y <= 2 ? [x, y] : null;
}

/** One plane for all, or one each. */
function planesOf<Plane>(count: number, read: () => Plane | null): Plane[] | null {
  if (count !== 1 && count !== 3) return null;
  const planes: Plane[] = [];
  for (let plane = 0; plane < count; plane++) {
    const one = read();
    if (one === null) return null;
    planes.push(one);
  }
  return planes;
}

type Parser = (numbers: Numbers) => DngOpcode | null;

const warpRectilinear: Parser = (numbers) => {
  const planes = planesOf(numbers.long(), (): WarpPlane | null => {
    const [k0 = 0, k1 = 0, k2 = 0, k3 = 0, t0 = 0, t1 = 0] = numbers.doubles(6);
    if (!areSound([k0, k1, k2, k3, t0, t1])) return null;
    const radial = [k0, 0, k1, 0, k2, 0, k3];
    return { radial, tangential: [t0, t1], range: [0, Number.POSITIVE_INFINITY], isReciprocal: false };
  });
  const centre = centreOf(numbers.doubles(2));
  return planes === null || centre === null ? null : { kind: 'warp-rectilinear', planes, centre };
};

/** DNG 1.6; the order of its fields is from memory: no text of that edition was at hand. */
const warpRectilinear2: Parser = (numbers) => {
  const read = planesOf(numbers.long(), () => {
    const radial = numbers.doubles(15);
    const [t0 = 0, t1 = 0, low = 0, high = 0] = numbers.doubles(4);
    if (!areSound([...radial, t0, t1, low, high]) || low > high) return null;
    return { radial, tangential: [t0, t1], range: [low, high] } as const;
  });
  const centre = centreOf(numbers.doubles(2));
  const reciprocal = numbers.long();
  if (read === null || centre === null || !(reciprocal === 0 || reciprocal === 1)) return null;
  const planes = read.map((plane) => ({ ...plane, isReciprocal: reciprocal === 1 }));
  return { kind: 'warp-rectilinear', planes, centre };
};

const warpFisheye: Parser = (numbers) => {
  const planes = planesOf(numbers.long(), (): FisheyePlane | null => {
    const [k0 = 0, k1 = 0, k2 = 0, k3 = 0] = numbers.doubles(4);
    return areSound([k0, k1, k2, k3]) ? [k0, k1, k2, k3] : null;
  });
  const centre = centreOf(numbers.doubles(2));
  return planes === null || centre === null ? null : { kind: 'warp-fisheye', planes, centre };
};

const fixVignetteRadial: Parser = (numbers) => {
  const [k0 = 0, k1 = 0, k2 = 0, k3 = 0, k4 = 0] = numbers.doubles(5);
  const centre = centreOf(numbers.doubles(2));
  if (centre === null || !areSound([k0, k1, k2, k3, k4])) return null;
  return { kind: 'fix-vignette-radial', k: [k0, k1, k2, k3, k4], centre };
};

const fixBadPixelsConstant: Parser = (numbers) => {
  const constant = numbers.long();
  return constant <= 65_535 ? { kind: 'fix-bad-pixels-constant', constant } : null;
};

const fixBadPixelsList: Parser = (numbers) => {
  numbers.long(); // BayerPhase: the mosaic says that itself.
  const pointCount = numbers.long();
  const areaCount = numbers.long();
  const { badPointsMax, badAreasMax } = opcodeLimits;
  if (!(pointCount <= badPointsMax && areaCount <= badAreasMax)) return null;
  if (numbers.left < 8 * pointCount + 16 * areaCount) return null;
  const points = Array.from({ length: pointCount }, () => [numbers.long(), numbers.long()] as const);
  const areas = Array.from({ length: areaCount }, () => areaOf(numbers)).filter((area) => area !== null);
  return { kind: 'fix-bad-pixels-list', points, areas };
};

const trimBounds: Parser = (numbers) => {
  const area = areaOf(numbers);
  return area === null ? null : { kind: 'trim-bounds', area };
};

const gainMap: Parser = (numbers) => {
  const area = areaOf(numbers);
  const [plane = 0, planes = 0, rowPitch = 0, columnPitch = 0] = longs(numbers, 4);
  const [pointsV = 0, pointsH = 0] = longs(numbers, 2);
  const [spacingV = 0, spacingH = 0, originV = 0, originH = 0] = numbers.doubles(4);
  const mapPlanes = numbers.long();
  const count = pointsV * pointsH * mapPlanes;
  const sound =
    planes >= 1 && plane + planes <= 4 && rowPitch >= 1 && columnPitch >= 1 && count >= 1 && mapPlanes <= 4;
  if (area === null || !sound || numbers.left < 4 * count) return null;
  // A map of one row or column has no spacing to speak of.
  if (!((spacingV > 0 || pointsV === 1) && (spacingH > 0 || pointsH === 1))) return null;
  if (!areSound([spacingV, spacingH, originV, originH])) return null;
  const gains = Float32Array.from({ length: count }, () => numbers.float());
  if (!gains.every((gain) => gain >= 0 && gain <= coefficientMost)) return null;
  return {
    kind: 'gain-map',
    ...{ area, plane, planes, rowPitch, columnPitch, pointsV, pointsH, mapPlanes, gains },
    spacing: [spacingV, spacingH],
    origin: [originV, originH],
  };
};

function longs(numbers: Numbers, count: number): number[] {
  return Array.from({ length: count }, () => numbers.long());
}

function areaOf(numbers: Numbers): Area | null {
  const [top = 0, left = 0, bottom = 0, right = 0] = longs(numbers, 4);
  return top < bottom && left < right ? [top, left, bottom, right] : null;
}

/** Opcode ids of chapter 7. */
const parsers: ReadonlyMap<number, Parser> = new Map([
  [1, warpRectilinear],
  [2, warpFisheye],
  [3, fixVignetteRadial],
  [4, fixBadPixelsConstant],
  [5, fixBadPixelsList],
  [6, trimBounds],
  [9, gainMap],
  [14, warpRectilinear2],
]);
