import type { LostRect } from './geometry/lost-rects.ts';
import type { PlaceDrawing } from './geometry/place-drawing.ts';
import type { Placing } from './geometry/placing.ts';
import type { TargetCell } from './geometry/target-cells.ts';
import type { TileMark } from './geometry/tile-marks.ts';
import type { ChannelName } from './laid.ts';
import { atOf, type LaidRect, type ShareRect } from './laid-pen.ts';
import { paintLost } from './lost-painter.ts';
import { paintPlace } from './place-painter.ts';
import { paintReference } from './reference-painter.ts';
import { paintSharp, paintSpot } from './sharp-painter.ts';
import { paintTarget } from './target-painter.ts';

/** What lies over the picture; places are shares of it. */
export type Laid =
  | {
      readonly kind: 'sharp';
      readonly marks: readonly TileMark[];
      readonly spot: ShareRect | null;
    }
  | {
      readonly kind: 'lost';
      readonly rects: readonly LostRect[];
      readonly channels: Readonly<Record<ChannelName, boolean>>;
    }
  | { readonly kind: 'target'; readonly cells: readonly TargetCell[]; readonly goodMax: number }
  | {
      readonly kind: 'ghost';
      /** Of the reference; null where there is none to be seen. */
      readonly bitmap: ImageBitmap | null;
      readonly opacity: number;
      /** Where the reference was put by its own look; null: it is not seen, or that was not told. */
      readonly of: Placing | null;
      /** Null while differences are shown: they turn every line into another. */
      readonly place: PlaceDrawing | null;
    };

/**
 * Lays something over the picture that lies in `rect`: what was read of the original where `placing` put it. `unit`: device
 * pixels of a CSS pixel.
 */
export function paintLaid(
  context: CanvasRenderingContext2D,
  laid: Laid,
  placing: Placing,
  rect: LaidRect,
  unit: number,
): void {
  context.save();
  if (!placing.isPlain) {
    // What was cut off lies beside the picture.
    context.beginPath();
    context.rect(rect.left, rect.top, rect.width, rect.height);
    context.clip();
  }
  paint(context, laid, placing, rect, unit);
  context.restore();
}

function paint(
  context: CanvasRenderingContext2D,
  laid: Laid,
  placing: Placing,
  rect: LaidRect,
  unit: number,
): void {
  const at = atOf(rect, placing);
  switch (laid.kind) {
    case 'sharp':
      paintSharp(context, laid.marks, at, unit);
      if (laid.spot !== null) paintSpot(context, laid.spot, at, unit);
      return;
    case 'lost':
      paintLost(context, laid.rects, laid.channels, at, placing.isPlain, unit);
      return;
    case 'target':
      paintTarget(context, laid.cells, laid.goodMax, at, unit);
      return;
    case 'ghost':
      if (laid.bitmap !== null && laid.of !== null) {
        context.globalAlpha = laid.opacity;
        paintReference(context, laid.bitmap, laid.of, placing, rect);
        context.globalAlpha = 1;
      }
      if (laid.place !== null) paintPlace(context, laid.place, placing.original, at, rect.width, unit);
  }
}
