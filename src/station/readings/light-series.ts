import { epochMsToRfc3339, median } from '../../base/index.ts';
import type { LightReadings } from '../../contract/index.ts';
import { showsLight } from '../../facts/index.ts';
import { lightDifference, settingsStops } from '../../judge/index.ts';
import type { FrameRow, LitFrameRow, Register } from '../../register/index.ts';

/** As many frames as can be told apart in a plot of a hand's breadth. */
const framesShown = 24;

/** Where light that was read is found again. */
export type LitFrames = Pick<Register, 'litFrames' | 'litFrame'>;

type Series = Pick<LightReadings, 'baseline' | 'frames'>;

/**
 * The light of the last frames of a shot that show it, this one at the end, against the shot's reference; where there is none, or it
 * cannot be compared, against the middle of these frames. What the dials were changed by is taken off. Null where this
 * frame's light was not read, or only its preview's.
 */
export async function lightSeries(
  register: LitFrames,
  { id, job, shot, camera, orderMs }: Pick<FrameRow, 'id' | 'job' | 'shot' | 'camera' | 'orderMs'>,
  reference: string | null,
): Promise<Series | null> {
  const rows = await register.litFrames({ job, shot, camera, upTo: { orderMs, id }, limit: framesShown });
  const own = rows.at(-1);
  if (own === undefined || own.id !== id || own.source === 'preview') return null;
  const alike = rows.filter((row) => row.source === own.source && (row.id === id || showsLight(row.purpose)));
  const held = reference === null ? null : await register.litFrame(reference);
  const usable = held !== null && held.source === own.source && evFrom(own, held) !== null ? held : null;
  const evs = alike.map((row) => evFrom(row, usable ?? own));
  const middle = usable === null ? median(evs.filter((ev) => ev !== null)) : 0;
  return {
    baseline: usable === null ? { kind: 'middle', name: null } : { kind: 'reference', name: usable.name },
    frames: alike.map((row, at) => {
      const ev = evs[at] ?? null;
      return {
        frame: row.id,
        name: row.name,
        at: epochMsToRfc3339(row.orderMs),
        ev: ev === null ? null : ev - middle,
      };
    }),
  };
}

function evFrom(row: LitFrameRow, than: LitFrameRow): number | null {
  const difference = lightDifference(row.light, than.light);
  return difference === null ? null : difference.ev - (settingsStops(row.capture, than.capture) ?? 0);
}
