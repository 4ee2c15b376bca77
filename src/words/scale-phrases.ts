import { figurePhrase } from './phrases.ts';

/** How large things are said to be in the pictures of a shot, and by what. `name`: of the frame it was told on, where it is known. */
export function scaleToldPhrase(
  scale: {
    readonly toldBy: 'target' | 'points';
    readonly mm: number;
    readonly px: number;
    readonly mmPerPx: number;
  } | null,
  name: string | null,
): string {
  if (scale === null) return 'How large things are in the pictures of this shot is not told.';
  const { toldBy, mm, px, mmPerPx } = scale;
  const what = toldBy === 'points' ? 'two points' : 'the target';
  const where = name === null ? what : `${what} in ${name}`;
  return `A pixel is ${pixelPhrase(mmPerPx)} on the set: by ${where}, ${figurePhrase(mm, 'mm')} on ${figurePhrase(px, 'px')}.`;
}

/** Three figures that count: a pixel is a hundredth of a millimetre, or some of them. */
function pixelPhrase(mmPerPx: number): string {
  return `${Number(mmPerPx.toPrecision(3))} mm`;
}
