import type { FrameVerdict } from '../../../contract/index.ts';

/** A verdict is made of many edges: one that is narrower by less than this share shows the same. */
const sameShare = 0.15;

/**
 * How wide a verdict of movement takes the edges to be, px, where the edge that is drawn (`widthPx`) does not show the
 * movement; null where the drawing says the same as the verdict.
 */
export function withMovementPx({ findings }: Pick<FrameVerdict, 'findings'>, widthPx: number): number | null {
  const px = findings.find(({ code }) => code === 'sharp.moved')?.args.px;
  return typeof px === 'number' && widthPx < px * (1 - sameShare) ? px : null;
}
