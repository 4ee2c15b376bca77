/** Of OKLCh: red, orange, yellow, green, cyan, blue, magenta, the corners of sRGB and two that skin and leaves need. */
const corners = [29, 70, 110, 142, 195, 264, 328] as const;

/** Two bands nearer than this cannot be told apart on the wheel, degrees. */
const apart = 20;

/** The corner that is farthest from the hues that are taken; where all are taken, the middle of the widest gap. 0 … 360. */
export function freeHue(taken: readonly number[]): number {
  const away = (one: number, other: number): number => Math.abs(((one - other + 540) % 360) - 180);
  const nearest = (hue: number): number => Math.min(360, ...taken.map((each) => away(hue, each)));
  const corner = corners.reduce((best, hue) => (nearest(hue) > nearest(best) ? hue : best));
  if (nearest(corner) >= apart) return corner;
  const around = [...taken].map((hue) => hue % 360).sort((a, b) => a - b);
  const gaps = around.map((from, index) => ({ from, width: gapTo(around[index + 1], around[0] ?? 0, from) }));
  const widest = gaps.reduce((best, gap) => (gap.width > best.width ? gap : best));
  return Math.round(widest.from + widest.width / 2) % 360;
}

function gapTo(next: number | undefined, first: number, from: number): number {
  return (next ?? first + 360) - from;
}
