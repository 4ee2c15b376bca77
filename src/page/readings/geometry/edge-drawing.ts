import type { EdgeProfileReading } from '../../../contract/index.ts';
import { clamp, linear, type PlotSize, place } from './plot-scale.ts';

export interface EdgeDrawing {
  /** The means that were measured. */
  readonly points: readonly { readonly x: number; readonly y: number }[];
  /** A line through them. */
  readonly path: string;
  /** Heights of 0, 10, 90 and 100 %. */
  readonly levels: Readonly<Record<'dark' | 'ten' | 'ninety' | 'bright', number>>;
  readonly tenX: number;
  readonly ninetyX: number;
  /** The widest rise that is good, about the same middle. */
  readonly good: { readonly fromX: number; readonly toX: number };
  /** Whole pixels of the frame: how far apart they lie. */
  readonly pixelX: readonly number[];
}

/** So much is shown on each side, in widths of the rise; enough to see where it levels out. */
const reachInWidths = 1.6;
/** Room above and below for edges that a camera has sharpened, share of the rise. */
const overshoot = 0.14;
/** More marks than this are a grey band. */
const pixelMarksMax = 40;

/** Places of an edge profile within a drawing of this size. */
export function drawEdge(profile: EdgeProfileReading, goodPx: number, size: PlotSize): EdgeDrawing {
  const { fromPx, stepPx, heights, tenPx, ninetyPx } = profile;
  const middlePx = (tenPx + ninetyPx) / 2;
  const reachPx = Math.max(reachInWidths * (ninetyPx - tenPx), 0.6 * goodPx, 2 * stepPx);
  const x = linear({ from: middlePx - reachPx, to: middlePx + reachPx }, { from: 0, to: size.width });
  const y = linear({ from: -overshoot, to: 1 + overshoot }, { from: size.height, to: 0 });
  const points = heights.flatMap((height, at) => {
    const atX = x(fromPx + at * stepPx);
    return height === null || atX < 0 || atX > size.width
      ? []
      : [{ x: atX, y: clamp(y(height), 0, size.height) }];
  });
  const marks = Math.floor(2 * reachPx) + 1;
  const firstPx = Math.ceil(middlePx - reachPx);
  return {
    points,
    path: points.map((point, at) => `${at === 0 ? 'M' : 'L'}${place(point.x)} ${place(point.y)}`).join(''),
    levels: { dark: y(0), ten: y(0.1), ninety: y(0.9), bright: y(1) },
    tenX: x(tenPx),
    ninetyX: x(ninetyPx),
    good: { fromX: x(middlePx - goodPx / 2), toX: x(middlePx + goodPx / 2) },
    pixelX:
      marks > pixelMarksMax
        ? []
        : Array.from({ length: marks }, (_, at) => x(firstPx + at)).filter((at) => at <= size.width),
  };
}
