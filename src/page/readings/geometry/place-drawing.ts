import type { Finding, SharePoint } from '../../../facts/index.ts';
import type { ShareRect } from '../laid-pen.ts';

type Figures = Readonly<Record<string, number>>;

/** What the figures of a place give to draw. */
export interface PlaceDrawing {
  /** Bounds of the subject, shares of the picture; null where none was found. */
  readonly box: ShareRect | null;
  /** Free room beside it, %. */
  readonly margins: ShareRect | null;
  /** Against the reference, px of the full-size frame; of a part that moved by itself where one did. Null where it was not told. */
  readonly move: { readonly rightPx: number; readonly downPx: number } | null;
  /** About where something is gone, covered or new, shares of the picture. */
  readonly changed: readonly SharePoint[];
}

const changedCodes: readonly string[] = ['place.part-lost', 'place.part-changed'];

/** From a frame's figures by name (`marginLeftPercent`, `shiftRightPx` …), and what In place finds. */
export function placeDrawing(figures: Figures, findings: readonly Finding[]): PlaceDrawing {
  const { marginLeftPercent, marginTopPercent, marginRightPercent, marginBottomPercent } = figures;
  const { shiftRightPx, shiftDownPx, partRightPx, partDownPx } = figures;
  const margins =
    marginLeftPercent === undefined ||
    marginTopPercent === undefined ||
    marginRightPercent === undefined ||
    marginBottomPercent === undefined
      ? null
      : {
          left: marginLeftPercent,
          top: marginTopPercent,
          right: marginRightPercent,
          bottom: marginBottomPercent,
        };
  const box =
    margins === null
      ? null
      : {
          left: margins.left / 100,
          top: margins.top / 100,
          right: 1 - margins.right / 100,
          bottom: 1 - margins.bottom / 100,
        };
  const whole =
    shiftRightPx === undefined || shiftDownPx === undefined
      ? null
      : { rightPx: shiftRightPx, downPx: shiftDownPx };
  const part =
    partRightPx === undefined || partDownPx === undefined
      ? null
      : { rightPx: partRightPx, downPx: partDownPx };
  const changed = findings.flatMap(({ code, args: { acrossPercent, downPercent } }) =>
    changedCodes.includes(code) && typeof acrossPercent === 'number' && typeof downPercent === 'number'
      ? [{ x: acrossPercent / 100, y: downPercent / 100 }]
      : [],
  );
  return { box, margins, move: part ?? whole, changed };
}

/** The smallest of 1, 2, 5, 10, 20 … px that is not below the move: the ring that an arrow is drawn in. */
export function ringPx({ rightPx, downPx }: NonNullable<PlaceDrawing['move']>): number {
  const length = Math.hypot(rightPx, downPx);
  if (!(length > 1)) return 1;
  const power = 10 ** Math.floor(Math.log10(length));
  return [1, 2, 5, 10].map((step) => step * power).find((ring) => ring >= length - 1e-9) ?? 10 * power;
}
