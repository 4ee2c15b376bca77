import type { LightReadings } from '../../../contract/index.ts';
import type { Judgement } from '../../../facts/index.ts';
import { clamp, linear, type PlotSize } from './plot-scale.ts';

export interface DriftDrawing {
  /** Where no difference lies. */
  readonly zeroY: number;
  /** Within it the light counts as the same. */
  readonly good: { readonly fromY: number; readonly toY: number };
  readonly frames: readonly DriftMark[];
  /** EV at the top edge; the bottom edge is as far below. */
  readonly reachEv: number;
}

export interface DriftMark {
  readonly frame: string;
  readonly name: string;
  /** Null where it cannot be compared. */
  readonly ev: number | null;
  readonly judgement: Judgement;
  readonly x: number;
  readonly y: number;
  /** It lies further out than the drawing goes. */
  readonly beyond: boolean;
  /** The frame that is looked at. */
  readonly own: boolean;
}

/** A drawing always shows this much, so that hundredths of a stop do not look like weather. */
const reachLeast = 0.5;
/** Beyond, a strobe's fall would press everything else flat. */
const reachMost = 3;
/** Room at both sides and at the top for the marks themselves. */
const margin = 12;

/** Places of the last frames' light, the newest at the right. */
export function drawDrift(
  { frames, goodEv, badEv }: Pick<LightReadings, 'frames' | 'goodEv' | 'badEv'>,
  size: PlotSize,
): DriftDrawing {
  const most = Math.max(0, ...frames.map(({ ev }) => Math.abs(ev ?? 0)));
  const reachEv = clamp(
    Math.ceil(most * 2) / 2,
    Math.max(reachLeast, Math.min(goodEv * 1.5, reachMost)),
    reachMost,
  );
  const y = linear({ from: -reachEv, to: reachEv }, { from: size.height - margin, to: margin });
  const last = frames.length - 1;
  // A few frames stand at the right, close to each other as many would.
  const slots = Math.max(last, 7);
  const x = linear({ from: last - slots, to: last }, { from: margin, to: size.width - margin });
  return {
    zeroY: y(0),
    good: { fromY: y(Math.min(goodEv, reachEv)), toY: y(-Math.min(goodEv, reachEv)) },
    reachEv,
    frames: frames.map(({ frame, name, ev }, at) => ({
      frame,
      name,
      ev,
      judgement: judgementOf(ev, goodEv, badEv),
      x: x(at),
      y: y(clamp(ev ?? 0, -reachEv, reachEv)),
      beyond: ev !== null && Math.abs(ev) > reachEv,
      own: at === last,
    })),
  };
}

function judgementOf(ev: number | null, goodEv: number, badEv: number): Judgement {
  if (ev === null) return 'unknown';
  const size = Math.abs(ev);
  return size <= goodEv ? 'good' : size > badEv ? 'bad' : 'doubt';
}
