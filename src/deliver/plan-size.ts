import type { Finding } from '../facts/index.ts';
import type { Region, Size } from '../image/index.ts';
import type { DeliverySize } from './specification.ts';

/** How a picture is brought to the size that was asked for. */
export interface SizePlan {
  /**
   * What of the picture is taken, in its own pixels, whole numbers. It may reach beyond the picture: what lies there is the
   * background's.
   */
  readonly window: Region;
  /** What that is resampled to, px. */
  readonly target: Size;
  /** Whether the window reaches beyond the picture. */
  readonly isExtended: boolean;
  /** Codes `deliver.*`: smaller than asked for, enlarged, without its fill. */
  readonly findings: readonly Finding[];
}

export interface SizeWish {
  readonly size: DeliverySize;
  readonly enlarge: boolean;
  /** Whether something may be put around the picture. */
  readonly mayExtend: boolean;
}

/**
 * `picture`: the upright original at full size, px. `subject`: what is photographed, in its pixels, where that is known. An exact
 * size stays exact: a picture with too few pixels that may not be enlarged is set into its background where that may be extended, and
 * else comes smaller, in the shape that was asked for.
 */
export function planSize(picture: Size, subject: Region | null, wish: SizeWish): SizePlan {
  const { size } = wish;
  const whole: Region = { leftPx: 0, topPx: 0, ...picture };
  switch (size.kind) {
    case 'full':
      return { window: whole, target: { ...picture }, isExtended: false, findings: [] };
    case 'long-edge': {
      const longPx = Math.max(picture.widthPx, picture.heightPx);
      return wholeScaled(picture, whole, size.px / longPx, wish.enlarge);
    }
    case 'box': {
      const scale = Math.min(size.widthPx / picture.widthPx, size.heightPx / picture.heightPx);
      return wholeScaled(picture, whole, scale, wish.enlarge);
    }
    case 'exact':
      return exact(picture, subject, size, wish);
  }
}

function wholeScaled(picture: Size, window: Region, wanted: number, enlarge: boolean): SizePlan {
  const scale = enlarge ? wanted : Math.min(1, wanted);
  const target = scaled(picture, scale);
  const findings = scaleFindings(wanted, scale, target);
  return { window, target, isExtended: false, findings };
}

function exact(
  picture: Size,
  subject: Region | null,
  size: Extract<DeliverySize, { kind: 'exact' }>,
  { enlarge, mayExtend }: SizeWish,
): SizePlan {
  const frame: Size = { widthPx: size.widthPx, heightPx: size.heightPx };
  const fill = size.fillPercent;
  const around = fill === null ? null : subject;
  const findings: Finding[] = [];
  if (fill !== null && subject === null)
    findings.push({ code: 'deliver.no-subject', args: { percent: fill } });
  const filled: Region = around ?? { leftPx: 0, topPx: 0, ...picture };
  const share = around === null ? 1 : (fill ?? 100) / 100;
  const perWidth = (frame.widthPx * share) / filled.widthPx;
  const perHeight = (frame.heightPx * share) / filled.heightPx;
  // Without a subject the frame is cut out of the picture, or, where white may be put around it, the picture set into the frame.
  const inside = around !== null || mayExtend;
  const wanted = inside ? Math.min(perWidth, perHeight) : Math.max(perWidth, perHeight);
  // Nothing can be put around it: then the window has to fit the picture.
  const least = mayExtend
    ? wanted
    : Math.max(wanted, frame.widthPx / picture.widthPx, frame.heightPx / picture.heightPx);
  if (around !== null && least > wanted * 1.005) {
    findings.push({ code: 'deliver.fuller-than-asked', args: { percent: (fill ?? 100) * (least / wanted) } });
  }
  const scale = enlarge ? least : Math.min(1, least);
  const isShort = scale < least && !mayExtend;
  const target = isShort ? scaled(frame, scale / least) : frame;
  const window = windowAround(filled, target, scale, mayExtend ? null : picture);
  const isExtended =
    window.leftPx < 0 ||
    window.topPx < 0 ||
    window.leftPx + window.widthPx > picture.widthPx ||
    window.topPx + window.heightPx > picture.heightPx;
  const short = isShort ? 'deliver.too-few-pixels' : 'deliver.stands-small';
  return {
    window,
    target,
    isExtended,
    findings: [...findings, ...scaleFindings(least, scale, target, short)],
  };
}

/** So large in the picture's pixels that it becomes `target`, about the middle of `about`; within `bounds` where there are any. */
function windowAround(about: Region, target: Size, scale: number, bounds: Size | null): Region {
  const widthPx = boundedSize(target.widthPx / scale, bounds?.widthPx);
  const heightPx = boundedSize(target.heightPx / scale, bounds?.heightPx);
  const leftPx = Math.round(about.leftPx + (about.widthPx - widthPx) / 2);
  const topPx = Math.round(about.topPx + (about.heightPx - heightPx) / 2);
  if (bounds === null) return { leftPx, topPx, widthPx, heightPx };
  return {
    leftPx: Math.max(0, Math.min(leftPx, bounds.widthPx - widthPx)),
    topPx: Math.max(0, Math.min(topPx, bounds.heightPx - heightPx)),
    widthPx,
    heightPx,
  };
}

function boundedSize(px: number, max: number | undefined): number {
  const whole = Math.max(1, Math.round(px));
  return max === undefined ? whole : Math.min(whole, max);
}

function scaled({ widthPx, heightPx }: Size, scale: number): Size {
  return {
    widthPx: Math.max(1, Math.round(widthPx * scale)),
    heightPx: Math.max(1, Math.round(heightPx * scale)),
  };
}

/** Nothing where it is as asked for and not enlarged. `short`: what is said where there are too few pixels. */
function scaleFindings(
  wanted: number,
  scale: number,
  { widthPx, heightPx }: Size,
  short = 'deliver.too-few-pixels',
): readonly Finding[] {
  const percent = Math.round(100 / Math.max(wanted, scale));
  if (scale < wanted) return [{ code: short, args: { widthPx, heightPx, percent } }];
  if (scale > 1)
    return [{ code: 'deliver.enlarged', args: { widthPx, heightPx, percent: Math.round(scale * 100) } }];
  return [];
}
