import { useMemo } from 'react';
import type { Frame, FrameReadings } from '../../contract/index.ts';
import type { Question } from '../../facts/index.ts';
import { lostRects } from './geometry/lost-rects.ts';
import { placeDrawing } from './geometry/place-drawing.ts';
import { targetCells } from './geometry/target-cells.ts';
import { tileMarks } from './geometry/tile-marks.ts';
import type { LaidChoice } from './laid.ts';
import type { Laid } from './laid-painter.ts';
import type { ReferencePicture, SeenReference } from './use-reference.ts';

/** What lies over the picture now: the map of the verdict that is open. Null for nothing. */
export function useLaid(
  open: Question | null,
  frame: Frame | null,
  readings: FrameReadings | null,
  choice: LaidChoice,
  reference: ReferencePicture,
): Laid | null {
  const seen = reference.state === 'here' ? reference : null;
  return useMemo(() => {
    if (!choice.on) return null;
    if (open === 'sharp' && readings?.sharp != null) {
      const { map, spot } = readings.sharp;
      const marks = tileMarks(map, readings.goodEdgePx, readings.badEdgePx);
      return { kind: 'sharp', marks, spot };
    }
    if (open === 'exposed' && readings?.exposed != null)
      return { kind: 'lost', rects: lostRects(readings.exposed.lost), channels: choice.channels };
    if (open === 'inPlace') return placeLaid(frame, seen, choice);
    if (open === 'colour' && readings?.target != null)
      return { kind: 'target', cells: targetCells(readings.target, 0.24), goodMax: readings.target.goodMax };
    return null;
  }, [open, frame, readings, choice, seen]);
}

function placeLaid(frame: Frame | null, reference: SeenReference | null, choice: LaidChoice): Laid | null {
  const bitmap = reference?.bitmap ?? null;
  const differs = choice.ghost === 'difference' && bitmap !== null;
  const drawing = placeDrawing(frame?.readings ?? {}, frame?.verdicts.inPlace.findings ?? []);
  const isEmpty = drawing.box === null && drawing.move === null && drawing.changed.length === 0;
  const place = differs || isEmpty ? null : drawing;
  if (bitmap === null && place === null) return null;
  return { kind: 'ghost', bitmap, of: reference?.of ?? null, opacity: differs ? 1 : choice.opacity, place };
}
