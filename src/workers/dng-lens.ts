import type { BadPixels, RawLens } from '../develop/index.ts';
import type { Finding, LensCorrections, LensStep } from '../facts/index.ts';
import {
  type DngOpcode,
  type Inspection,
  type OpcodeList,
  opcodeLimits,
  parseOpcodes,
} from '../formats/index.ts';
import type { Region, Size } from '../image/index.ts';

type DngTags = NonNullable<Inspection['tags']['dng']>;

/** What the maker of a DNG wants done. */
export interface DngLens extends RawLens {
  /** The part of the active area that is left in the end; null: all. */
  readonly trim: Region | null;
  /** `develop.opcodes-left-out`. */
  readonly issues: readonly Finding[];
}

const noList: OpcodeList = { opcodes: [], skipped: [], missed: [] };

/** The opcode lists of a DNG; null where it has none. */
export function dngLens(dng: DngTags, bytes: Uint8Array): DngLens | null {
  const [first, second, third] = dng.opcodeLists.map((range) =>
    range === undefined || range.length > opcodeLimits.listBytesMax
      ? noList
      : parseOpcodes(bytes.subarray(range.offset, range.offset + range.length)),
  );
  const lists = [first ?? noList, second ?? noList, third ?? noList] as const;
  if (lists.every((list) => list.opcodes.length === 0 && list.missed.length === 0)) return null;
  const onSamples = lists[0].opcodes.flatMap((opcode) => badOf(opcode));
  const maps = lists[1].opcodes.filter((opcode) => opcode.kind === 'gain-map');
  const trims = lists.flatMap(({ opcodes }) => opcodes).filter((opcode) => opcode.kind === 'trim-bounds');
  const missed = [...lists.flatMap((list) => list.missed), ...misplaced(lists)];
  return {
    bad: joined(onSamples),
    samples: maps.map(({ area, ...map }) => ({ ...map, within: area })),
    steps: lists[2].opcodes.flatMap((opcode) => stepOf(opcode)),
    trim: trims.length === 0 ? null : smallest(trims.map(({ area }) => area)),
    issues:
      missed.length === 0 ? [] : [{ code: 'develop.opcodes-left-out', args: { opcodes: missed.join(' ') } }],
  };
}

/** Those that are known, but in a list for which they are not carried out here. */
function misplaced(lists: readonly [OpcodeList, OpcodeList, OpcodeList]): readonly string[] {
  const [first, second, third] = lists.map(({ opcodes }) => opcodes.map(({ kind }) => kind));
  const bad = ['fix-bad-pixels-constant', 'fix-bad-pixels-list'];
  return [
    ...(first ?? []).filter((kind) => ![...bad, 'trim-bounds'].includes(kind)),
    ...(second ?? []).filter((kind) => !['gain-map', 'trim-bounds'].includes(kind)),
    ...(third ?? []).filter((kind) => bad.includes(kind)),
  ];
}

function badOf(opcode: DngOpcode): readonly BadPixels[] {
  if (opcode.kind === 'fix-bad-pixels-constant')
    return [{ points: [], areas: [], constant: opcode.constant }];
  if (opcode.kind !== 'fix-bad-pixels-list') return [];
  return [{ points: opcode.points, areas: opcode.areas, constant: null }];
}

function joined(parts: readonly BadPixels[]): BadPixels | null {
  if (parts.length === 0) return null;
  return {
    points: parts.flatMap(({ points }) => points),
    areas: parts.flatMap(({ areas }) => areas),
    constant: parts.find(({ constant }) => constant !== null)?.constant ?? null,
  };
}

function stepOf(opcode: DngOpcode): readonly LensStep[] {
  switch (opcode.kind) {
    case 'warp-rectilinear':
      return [{ kind: 'warp', planes: opcode.planes, centre: opcode.centre }];
    case 'warp-fisheye':
      return [{ kind: 'fisheye', planes: opcode.planes, centre: opcode.centre }];
    case 'fix-vignette-radial':
      return [{ kind: 'radial-gain', k: opcode.k, centre: opcode.centre }];
    case 'gain-map': {
      const { area, ...map } = opcode;
      return [{ ...map, within: area }];
    }
    case 'fix-bad-pixels-constant':
    case 'fix-bad-pixels-list':
    case 'trim-bounds':
      return [];
  }
}

type Area = Extract<DngOpcode, { kind: 'trim-bounds' }>['area'];

function smallest(areas: readonly Area[]): Region {
  const edge = (index: 0 | 1 | 2 | 3): number[] => areas.map((area) => area[index]);
  const [topPx, leftPx] = [Math.max(...edge(0)), Math.max(...edge(1))];
  return {
    leftPx,
    topPx,
    widthPx: Math.max(0, Math.min(...edge(3)) - leftPx),
    heightPx: Math.max(0, Math.min(...edge(2)) - topPx),
  };
}

/** The corrections of a mosaic that lies at `leftPx`, `topPx` of the active area; undefined where there are none. */
export function placedLens(
  lens: RawLens,
  area: Size,
  { leftPx, topPx }: Pick<Region, 'leftPx' | 'topPx'>,
): LensCorrections | undefined {
  const { samples, steps } = lens;
  if (samples.length === 0 && steps.length === 0) return undefined;
  return { area, leftPx, topPx, samples, steps };
}

/** Bad samples of the stored picture in pixels of a part that begins at `topPx`, `leftPx` of it. */
export function movedBad({ points, areas, constant }: BadPixels, topPx: number, leftPx: number): BadPixels {
  return {
    points: points.map(([row, column]) => [row - topPx, column - leftPx] as const),
    areas: areas.map(
      ([top, left, bottom, right]) => [top - topPx, left - leftPx, bottom - topPx, right - leftPx] as const,
    ),
    constant,
  };
}
