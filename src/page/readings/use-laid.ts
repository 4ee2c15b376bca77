import { useMemo } from 'react';
import type { FrameReadings } from '../../contract/index.ts';
import type { Question } from '../../facts/index.ts';
import { lostRects } from './geometry/lost-rects.ts';
import { targetCells } from './geometry/target-cells.ts';
import { tileMarks } from './geometry/tile-marks.ts';
import type { LaidChoice } from './laid.ts';
import type { Laid } from './laid-painter.ts';
import type { ReferencePicture } from './use-reference.ts';

/** What lies over the picture now: the map of the verdict that is open. Null for nothing. */
export function useLaid(
  open: Question | null,
  readings: FrameReadings | null,
  choice: LaidChoice,
  reference: ReferencePicture,
): Laid | null {
  const bitmap = reference.state === 'here' ? reference.bitmap : null;
  return useMemo(() => {
    if (!choice.on) return null;
    if (open === 'sharp' && readings?.sharp != null) {
      const { map, spot } = readings.sharp;
      const marks = tileMarks(map, readings.goodEdgePx, readings.badEdgePx);
      return { kind: 'sharp', marks, spot };
    }
    if (open === 'exposed' && readings?.exposed != null)
      return { kind: 'lost', rects: lostRects(readings.exposed.lost), channels: choice.channels };
    if (open === 'inPlace' && bitmap !== null)
      return { kind: 'ghost', bitmap, opacity: choice.ghost === 'difference' ? 1 : choice.opacity };
    if (open === 'colour' && readings?.target != null)
      return { kind: 'target', cells: targetCells(readings.target, 0.24), goodMax: readings.target.goodMax };
    return null;
  }, [open, readings, choice, bitmap]);
}
