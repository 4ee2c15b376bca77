import type { Mosaic, RawLayout } from '../../facts/index.ts';
import type { Region } from '../../image/index.ts';
import type { BinPlan } from '../plan.ts';
import type { FramePlan } from '../plan-frame.ts';
import { type RowSource, sixRows } from './six-rows.ts';

/** Balanced camera RGB of a frame whose samples are no 2x2 mosaic, in rows of its window. */
export function layoutRows(
  mosaic: Mosaic,
  layout: RawLayout,
  plan: BinPlan,
  { from, window }: Pick<FramePlan, 'from' | 'window'>,
): RowSource {
  if (from === 'full') return fullRows(mosaic, layout, plan, window);
  const { leftPx, topPx, widthPx, heightPx } = window;
  const twice: Region = {
    leftPx: 2 * leftPx,
    topPx: 2 * topPx,
    widthPx: 2 * widthPx,
    heightPx: 2 * heightPx,
  };
  return halved(fullRows(mosaic, layout, plan, twice), widthPx);
}

function fullRows(mosaic: Mosaic, layout: RawLayout, plan: BinPlan, window: Region): RowSource {
  switch (layout.kind) {
    case 'six':
      return sixRows(mosaic, layout.filters, plan, window);
    case 'grey':
      return storedRows(mosaic, plan, window, 1);
    case 'linear':
      return storedRows(mosaic, plan, window, 3);
  }
}

/** Samples as they are, black taken off and balanced; grey is the same in all channels. */
function storedRows(mosaic: Mosaic, plan: BinPlan, window: Region, channels: 1 | 3): RowSource {
  const { values, widthPx, blackLevels, whiteLevel } = mosaic;
  const [black] = blackLevels;
  const scales = plan.saturation.map((limit) => limit / (whiteLevel - black));
  return (rowStart, rowEnd, out) => {
    let to = 0;
    for (let row = rowStart; row < rowEnd; row++) {
      let at = ((window.topPx + row) * widthPx + window.leftPx) * channels;
      for (let column = 0; column < window.widthPx; column++, at += channels) {
        for (let channel = 0; channel < 3; channel++) {
          const value = values[channels === 1 ? at : at + channel] ?? 0;
          out[to++] = (value - black) * (scales[channel] ?? 0);
        }
      }
    }
  };
}

/** Half size is the mean of 2 x 2 pixels of full size. */
function halved(full: RowSource, widthPx: number): RowSource {
  let rows = new Float32Array(0);
  return (rowStart, rowEnd, out) => {
    const count = rowEnd - rowStart;
    const length = 2 * widthPx * 3;
    if (rows.length < 2 * count * length) rows = new Float32Array(2 * count * length);
    full(2 * rowStart, 2 * rowEnd, rows);
    for (let row = 0; row < count; row++) {
      for (let column = 0; column < widthPx; column++) {
        for (let channel = 0; channel < 3; channel++) {
          const at = 2 * row * length + column * 6 + channel;
          const upper = (rows[at] ?? 0) + (rows[at + 3] ?? 0);
          const lower = (rows[at + length] ?? 0) + (rows[at + length + 3] ?? 0);
          out[(row * widthPx + column) * 3 + channel] = (upper + lower) / 4;
        }
      }
    }
  };
}
