import type { ShareBox } from '../facts/index.ts';

/** Half the edge of the box about a bare point, share of the shorter edge. */
const pointReach = 0.06;

/**
 * The focus region of a `RegionInfo` structure (ExifTool's JSON of `XMP-mwg-rs`; Metadata Working Group, Guidelines for
 * Handling Image Metadata 2.0, image regions). Areas are told by their middle, as shares of the picture as it is stored,
 * a circle's diameter as one of the shorter edge (both from memory). What was used comes before what was only evaluated;
 * what was neither does not count. Null where there is none.
 */
export function focusRegionOf(info: unknown): ShareBox | null {
  const size = field(info, 'AppliedToDimensions');
  const regions = field(info, 'RegionList');
  if (!Array.isArray(regions)) return null;
  const focus = regions.filter((region) => field(region, 'Type') === 'Focus');
  const used = focus.find((region) => isUsed(region) === true);
  const region = used ?? focus.find((each) => isUsed(each) === null);
  return region === undefined ? null : boxOf(field(region, 'Area'), shapeOf(size));
}

/** Null where nobody says, or where it was looked at and not taken. */
function isUsed(region: unknown): boolean | null {
  switch (field(region, 'FocusUsage')) {
    case 'Evaluated, Used':
    case 'EvaluatedUsed':
      return true;
    case 'Not Evaluated, Not Used':
    case 'NotEvaluatedNotUsed':
      return false;
    default:
      return null;
  }
}

/** Width against height of the picture that the regions were made of; null where nobody says. */
function shapeOf(size: unknown): number | null {
  const [width, height] = [figure(size, 'W'), figure(size, 'H')];
  return width !== null && height !== null && width > 0 && height > 0 ? width / height : null;
}

function boxOf(area: unknown, shape: number | null): ShareBox | null {
  const [x, y] = [figure(area, 'X'), figure(area, 'Y')];
  const unit = field(area, 'Unit');
  if (x === null || y === null || !(x > 0 && y > 0 && x < 1 && y < 1)) return null;
  if (unit !== undefined && unit !== 'normalized') return null;
  const across = figure(area, 'D') ?? 0;
  const round = across > 0 ? across : 2 * pointReach;
  const [narrow, high] = shape === null ? [1, 1] : [Math.min(1, 1 / shape), Math.min(1, shape)];
  const width = positive(figure(area, 'W')) ?? round * narrow;
  const height = positive(figure(area, 'H')) ?? round * high;
  return {
    left: Math.max(0, x - width / 2),
    top: Math.max(0, y - height / 2),
    right: Math.min(1, x + width / 2),
    bottom: Math.min(1, y + height / 2),
  };
}

function positive(value: number | null): number | null {
  return value !== null && value > 0 ? value : null;
}

function figure(of: unknown, name: string): number | null {
  const value = Number(field(of, name) ?? Number.NaN);
  return Number.isFinite(value) ? value : null;
}

function field(of: unknown, name: string): unknown {
  return typeof of === 'object' && of !== null
    ? new Map<string, unknown>(Object.entries(of)).get(name)
    : undefined;
}
