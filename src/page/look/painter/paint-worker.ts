/** The thread that paints where there is no WebGL 2. */
import '../../plain-zod.ts';
import type { RgbHalf } from '../../../image/index.ts';
import type { Drawing, Tables } from './painter.ts';
import { lightOf, paintPlain, type RowRun } from './plain-tables.ts';

export type PaintRequest =
  | { readonly kind: 'scene'; readonly scene: RgbHalf }
  | { readonly kind: 'tables'; readonly side: 'now' | 'before'; readonly tables: Tables }
  | { readonly kind: 'draw'; readonly drawing: Drawing };

export interface Painted {
  readonly pixels: Uint8ClampedArray<ArrayBuffer>;
  readonly widthPx: number;
  readonly heightPx: number;
}

let scene: RgbHalf | null = null;
const runs: { now: RowRun | null; before: RowRun | null } = { now: null, before: null };

addEventListener('message', ({ data }: MessageEvent<PaintRequest>) => {
  if (data.kind === 'scene') scene = data.scene;
  else if (data.kind === 'tables') runs[data.side] = lightOf(data.tables);
  else postMessage(painted(data.drawing));
});

function painted(drawing: Drawing): Painted | null {
  if (scene === null || runs.now === null) return null;
  const { widthPx, heightPx } = drawing.placed;
  return { pixels: paintPlain(scene, runs.now, runs.before, drawing), widthPx, heightPx };
}
