import type { SharpReadings } from '../../../contract/index.ts';
import type { Judgement } from '../../../facts/index.ts';
import { clamp } from './plot-scale.ts';

/** A tile whose edges were read; places and sizes are shares of the picture. */
export interface TileMark {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly widthPx: number;
  readonly judgement: Extract<Judgement, 'good' | 'doubt' | 'bad'>;
  /** Radius of its disc, share of the smaller side of a tile: as large as the blur is. */
  readonly radius: number;
}

/** The disc of an edge that is just good; a very sharp one can still be seen, a very soft one keeps to its tile. */
const radiusAtGood = 0.16;
const radiusLeast = 0.07;
const radiusMost = 0.44;

/** The tiles of a map as discs of the blur's size. */
export function tileMarks(map: SharpReadings['map'], goodPx: number, badPx: number): TileMark[] {
  const { columns, columnEnds, rowEnds, widthsPx } = map;
  return widthsPx.flatMap((widthPx, at) => {
    if (widthPx === null) return [];
    const [column, row] = [at % columns, Math.floor(at / columns)];
    const [left, right] = [column === 0 ? 0 : (columnEnds[column - 1] ?? 0), columnEnds[column] ?? 1];
    const [top, bottom] = [row === 0 ? 0 : (rowEnds[row - 1] ?? 0), rowEnds[row] ?? 1];
    return [
      {
        x: (left + right) / 2,
        y: (top + bottom) / 2,
        width: right - left,
        height: bottom - top,
        widthPx,
        judgement: widthJudgement(widthPx, goodPx, badPx),
        radius: clamp((radiusAtGood * widthPx) / goodPx, radiusLeast, radiusMost),
      },
    ];
  });
}

export function widthJudgement(widthPx: number, goodPx: number, badPx: number): TileMark['judgement'] {
  return widthPx <= goodPx ? 'good' : widthPx > badPx ? 'bad' : 'doubt';
}
