import type { Finding } from '../facts/index.ts';
import type { DevelopedFile, DevelopFileOptions } from '../workers/index.ts';

/** Below it a picture is of use to few: most often a crop of a ratio or a size that was not meant. */
const smallEdgePx = 64;

/** What to say of a result's size: `develop.not-enlarged`; where the look crops it, `develop.small-result`. */
export function sizeFindings(
  {
    renderedWidthPx: widthPx,
    renderedHeightPx: heightPx,
  }: Pick<DevelopedFile, 'renderedWidthPx' | 'renderedHeightPx'>,
  wanted: DevelopFileOptions['size'],
  isCropped: boolean,
): readonly Finding[] {
  const longPx = Math.max(widthPx, heightPx);
  const askedPx = typeof wanted === 'object' && 'longEdgePx' in wanted ? wanted.longEdgePx : 0;
  const isSmall =
    isCropped && Math.min(widthPx, heightPx) < smallEdgePx && (askedPx === 0 || askedPx > smallEdgePx);
  return [
    ...(askedPx > longPx ? [{ code: 'develop.not-enlarged', args: { askedPx, longPx } }] : []),
    ...(isSmall ? [{ code: 'develop.small-result', args: { widthPx, heightPx } }] : []),
  ];
}
