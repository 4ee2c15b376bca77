import type { LostRect } from './geometry/lost-rects.ts';
import type { ChannelName } from './laid.ts';
import { type At, cornersOf, ink, rim } from './laid-pen.ts';

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

/** Hatches the cells where a channel has lost its light. */
export function paintLost(
  context: CanvasRenderingContext2D,
  rects: readonly LostRect[],
  channels: Readonly<Record<ChannelName, boolean>>,
  at: At,
  isPlain: boolean,
  unit: number,
): void {
  for (const channel of ['red', 'green', 'blue'] as const) {
    const pattern = channels[channel] ? hatch(context, hatchSlants[channel], unit) : null;
    if (pattern === null) continue;
    context.fillStyle = pattern;
    context.beginPath();
    for (const { left, top, width, height, channels: lost } of rects) {
      if ((lost & channelBits[channel]) === 0) continue;
      const corners = cornersOf(at, { left, top, right: left + width, bottom: top + height });
      // Upright cells meet on whole pixels, so that no seam is seen between them.
      corners.forEach(([x, y], index) => {
        const [toX, toY] = isPlain
          ? [index % 3 === 0 ? Math.floor(x) : Math.ceil(x), index < 2 ? Math.floor(y) : Math.ceil(y)]
          : [x, y];
        if (index === 0) context.moveTo(toX, toY);
        else context.lineTo(toX, toY);
      });
      context.closePath();
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
