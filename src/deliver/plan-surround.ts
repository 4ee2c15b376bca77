import type { ShareBox } from '../facts/index.ts';
import type { Region, Size } from '../image/index.ts';
import { planSize, type SizePlan, type SizeWish } from './plan-size.ts';

/** What was told of a picture and its backdrop. */
export interface Surround {
  /** What is photographed, shares of the upright picture; null where it was not told from its background. */
  readonly subject: ShareBox | null;
  /** Sides along which the backdrop is plain. */
  readonly plain: { readonly [Side in (typeof sides)[number]]: boolean };
}

const sides = ['left', 'top', 'right', 'bottom'] as const;

/**
 * As `planSize`; the frame reaches beyond the picture only over sides where the backdrop is plain, so that it can go on in its own tone. Over
 * any other nothing is made up: then the frame stays within the picture, and that is said.
 */
export function planSurround(picture: Size, { subject, plain }: Surround, wish: SizeWish): SizePlan {
  const box = subject === null ? null : regionOf(subject, picture);
  const plan = planSize(picture, box, wish);
  if (!plan.isExtended) return plan;
  const unsafe = sides.filter((side) => isBeyond(plan.window, picture, side) && !plain[side]);
  if (unsafe.length === 0) return plan;
  const within = planSize(picture, box, { ...wish, mayExtend: false });
  const finding = { code: 'deliver.not-extended', args: { sides: unsafe.join(', ') } };
  return { ...within, findings: [finding, ...within.findings] };
}

function isBeyond(window: Region, picture: Size, side: (typeof sides)[number]): boolean {
  switch (side) {
    case 'left':
      return window.leftPx < 0;
    case 'top':
      return window.topPx < 0;
    case 'right':
      return window.leftPx + window.widthPx > picture.widthPx;
    case 'bottom':
      return window.topPx + window.heightPx > picture.heightPx;
  }
}

/** At least a pixel large. */
function regionOf({ left, top, right, bottom }: ShareBox, { widthPx, heightPx }: Size): Region {
  const leftPx = Math.min(widthPx - 1, Math.floor(left * widthPx));
  const topPx = Math.min(heightPx - 1, Math.floor(top * heightPx));
  return {
    leftPx,
    topPx,
    widthPx: Math.max(1, Math.ceil(right * widthPx) - leftPx),
    heightPx: Math.max(1, Math.ceil(bottom * heightPx) - topPx),
  };
}
