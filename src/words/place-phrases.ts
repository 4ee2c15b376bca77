import { movePhrase, sizePhrase, turnPhrase } from './english-place.ts';
import { sentence } from './sentences.ts';

type Figures = Readonly<Record<string, number>>;

/** Where the frame lies against its reference, in words. Null where that was not told. */
export function liesPhrase(figures: Figures): string | null {
  const { shiftRightPx, shiftDownPx, rotationDeg = 0, scalePercent = 0, partRightPx, partDownPx } = figures;
  if (shiftRightPx === undefined || shiftDownPx === undefined) return null;
  const isStill = Math.hypot(shiftRightPx, shiftDownPx) < 0.05 && Math.abs(rotationDeg) < 0.005;
  const lies = movePhrase({ rightPx: shiftRightPx, downPx: shiftDownPx, mm: figures.shiftMm ?? 0 });
  const part =
    partRightPx === undefined || partDownPx === undefined
      ? ''
      : ` A part of it has moved by itself, ${movePhrase({ rightPx: partRightPx, downPx: partDownPx, mm: Math.hypot(partRightPx, partDownPx) * (figures.mmPerPx ?? 0) })}: the arrow shows that.`;
  if (isStill && Math.abs(scalePercent) < 0.005)
    return `Against the reference the whole lies in its place.${part}`;
  return `Against the reference it lies ${lies}, ${turnPhrase({ degrees: rotationDeg })}, ${sizePhrase({ percent: scalePercent })}.${part}`;
}

/** How the subject stands in the frame, in words. Null where none was found. */
export function subjectPhrase(figures: Figures): string | null {
  const { subjectFillPercent: fillPercent, marginLeftPercent: left, marginTopPercent: top } = figures;
  const { marginRightPercent: right, marginBottomPercent: bottom } = figures;
  if (fillPercent === undefined || left === undefined || top === undefined) return null;
  if (right === undefined || bottom === undefined) return null;
  return sentence({ code: 'place.subject', args: { fillPercent, left, top, right, bottom } });
}
