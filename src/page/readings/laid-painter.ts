import type { LostRect } from './geometry/lost-rects.ts';
import type { PlaceDrawing } from './geometry/place-drawing.ts';
import type { TargetCell } from './geometry/target-cells.ts';
import type { TileMark } from './geometry/tile-marks.ts';
import type { ChannelName } from './laid.ts';
import type { LaidRect, ShareRect } from './laid-pen.ts';
import { fittedRect } from './laid-rect.ts';
import { paintLost } from './lost-painter.ts';
import { paintPlace } from './place-painter.ts';
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
      /** Null while differences are shown: they turn every line into another. */
      readonly place: { readonly drawing: PlaceDrawing; readonly fullWidthPx: number } | null;
    };

/** Lays something over the picture. `unit`: device pixels of a CSS pixel. */
export function paintLaid(context: CanvasRenderingContext2D, laid: Laid, rect: LaidRect, unit: number): void {
  switch (laid.kind) {
    case 'sharp':
      paintSharp(context, laid.marks, rect, unit);
      if (laid.spot !== null) paintSpot(context, laid.spot, rect, unit);
      return;
    case 'lost':
      paintLost(context, laid.rects, laid.channels, rect, unit);
      return;
    case 'target':
      paintTarget(context, laid.cells, laid.goodMax, rect, unit);
      return;
    case 'ghost':
      if (laid.bitmap !== null) {
        context.globalAlpha = laid.opacity;
        const at = fittedRect(rect, laid.bitmap);
        context.drawImage(laid.bitmap, at.left, at.top, at.width, at.height);
        context.globalAlpha = 1;
      }
      if (laid.place !== null) paintPlace(context, laid.place.drawing, laid.place.fullWidthPx, rect, unit);
  }
}
