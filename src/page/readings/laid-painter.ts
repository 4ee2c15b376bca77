import type { LostRect } from './geometry/lost-rects.ts';
import type { TileMark } from './geometry/tile-marks.ts';
import type { ChannelName } from './laid.ts';

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
  | { readonly kind: 'ghost'; readonly bitmap: ImageBitmap; readonly opacity: number };

export interface ShareRect {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Where the picture lies on the canvas, its pixels. */
export interface LaidRect {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

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
    case 'ghost':
      context.globalAlpha = laid.opacity;
      context.drawImage(laid.bitmap, rect.left, rect.top, rect.width, rect.height);
      context.globalAlpha = 1;
  }
}

/** Black with a white rim is seen on any picture. */
const ink = '#000000';
const rim = '#ffffff';
/** A tile of this width and more has room for its figure, CSS px. */
const figureFrom = 46;

function paintSharp(
  context: CanvasRenderingContext2D,
  marks: readonly TileMark[],
  rect: LaidRect,
  unit: number,
): void {
  for (const mark of marks) {
    const x = rect.left + mark.x * rect.width;
    const y = rect.top + mark.y * rect.height;
    const side = Math.min(mark.width * rect.width, mark.height * rect.height);
    const radius = mark.radius * side;
    const hasFigure = side >= figureFrom * unit;
    paintDisc(context, mark.judgement, x, hasFigure ? y - 6 * unit : y, Math.min(radius, side * 0.34), unit);
    if (hasFigure)
      paintFigure(
        context,
        mark.widthPx.toFixed(1),
        x,
        rect.top + (mark.y + mark.height / 2) * rect.height - 5 * unit,
        unit,
      );
  }
}

/** The shapes of judgements, open where there is blur so that the picture is seen through. */
function paintDisc(
  context: CanvasRenderingContext2D,
  judgement: TileMark['judgement'],
  x: number,
  y: number,
  radius: number,
  unit: number,
): void {
  const line = (1.6 + (judgement === 'bad' ? 0.8 : 0)) * unit;
  const circle = (): void => {
    context.beginPath();
    context.arc(x, y, radius, 0, 2 * Math.PI);
  };
  circle();
  context.lineWidth = line + 2.4 * unit;
  context.strokeStyle = rim;
  context.stroke();
  context.fillStyle = ink;
  if (judgement === 'good') context.fill();
  if (judgement === 'doubt') {
    context.beginPath();
    context.arc(x, y, radius, Math.PI / 2, (3 * Math.PI) / 2);
    context.fill();
  }
  if (judgement === 'bad') {
    context.beginPath();
    context.moveTo(x - radius, y);
    context.lineTo(x + radius, y);
    context.stroke();
  }
  context.lineWidth = line;
  context.strokeStyle = ink;
  if (judgement === 'bad') context.stroke();
  circle();
  context.stroke();
}

function paintFigure(
  context: CanvasRenderingContext2D,
  text: string,
  x: number,
  y: number,
  unit: number,
): void {
  context.font = `500 ${11 * unit}px "Fira Sans", sans-serif`;
  context.textAlign = 'center';
  context.textBaseline = 'alphabetic';
  context.lineJoin = 'round';
  context.lineWidth = 3 * unit;
  context.strokeStyle = rim;
  context.strokeText(text, x, y);
  context.fillStyle = ink;
  context.fillText(text, x, y);
}

/** Corners of a frame: what lies at the spot stays free. */
function paintSpot(context: CanvasRenderingContext2D, spot: ShareRect, rect: LaidRect, unit: number): void {
  const left = rect.left + spot.left * rect.width;
  const top = rect.top + spot.top * rect.height;
  const right = rect.left + spot.right * rect.width;
  const bottom = rect.top + spot.bottom * rect.height;
  const arm = Math.min(16 * unit, (right - left) / 3, (bottom - top) / 3);
  context.beginPath();
  for (const [x, y, dx, dy] of [
    [left, top, 1, 1],
    [right, top, -1, 1],
    [right, bottom, -1, -1],
    [left, bottom, 1, -1],
  ] as const) {
    context.moveTo(x + dx * arm, y);
    context.lineTo(x, y);
    context.lineTo(x, y + dy * arm);
  }
  context.lineWidth = 5 * unit;
  context.strokeStyle = rim;
  context.stroke();
  context.lineWidth = 2.2 * unit;
  context.strokeStyle = ink;
  context.stroke();
}

/**
 * Hatching for colours as engravers have drawn them since the 17th century (Petra Sancta's): red upright, blue level,
 * green slanting down to the right. So the channels are told apart without any colour, where several are lost too.
 */
export const hatchSlants: Readonly<Record<ChannelName, 'upright' | 'level' | 'slanting'>> = {
  red: 'upright',
  green: 'slanting',
  blue: 'level',
};
const channelBits = { red: 1, green: 2, blue: 4 } as const;
const hatchCssPx = 6;

function paintLost(
  context: CanvasRenderingContext2D,
  rects: readonly LostRect[],
  channels: Readonly<Record<ChannelName, boolean>>,
  rect: LaidRect,
  unit: number,
): void {
  for (const channel of ['red', 'green', 'blue'] as const) {
    const pattern = channels[channel] ? hatch(context, hatchSlants[channel], unit) : null;
    if (pattern === null) continue;
    context.fillStyle = pattern;
    context.beginPath();
    for (const { left, top, width, height, channels: lost } of rects) {
      if ((lost & channelBits[channel]) === 0) continue;
      const x = Math.floor(rect.left + left * rect.width);
      const y = Math.floor(rect.top + top * rect.height);
      const right = Math.ceil(rect.left + (left + width) * rect.width);
      const bottom = Math.ceil(rect.top + (top + height) * rect.height);
      context.rect(x, y, right - x, bottom - y);
    }
    context.fill();
  }
}

function hatch(
  context: CanvasRenderingContext2D,
  slant: 'upright' | 'level' | 'slanting',
  unit: number,
): CanvasPattern | null {
  const size = Math.max(4, Math.round(hatchCssPx * unit));
  const tile = new OffscreenCanvas(size, size);
  const pen = tile.getContext('2d');
  if (pen === null) return null;
  const lines: readonly (readonly [number, number, number, number])[] =
    slant === 'upright'
      ? [[size / 2, -size, size / 2, 2 * size]]
      : slant === 'level'
        ? [[-size, size / 2, 2 * size, size / 2]]
        : [-size, 0, size].map((by) => [by - 1, -1, by + size + 1, size + 1] as const);
  for (const [width, colour] of [
    [2.6 * unit, rim],
    [1.3 * unit, ink],
  ] as const) {
    pen.lineWidth = width;
    pen.strokeStyle = colour;
    for (const [fromX, fromY, toX, toY] of lines) {
      pen.beginPath();
      pen.moveTo(fromX, fromY);
      pen.lineTo(toX, toY);
      pen.stroke();
    }
  }
  return context.createPattern(tile, 'repeat');
}
