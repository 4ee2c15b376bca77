import type { EpochMs } from '../../base/index.ts';
import type { CaptureFacts, FrameReadings, LightMap, LightTrend } from '../../facts/index.ts';
import { lightTrend } from '../../judge/index.ts';
import type { FrameRow } from '../../register/index.ts';

/** As many frames of one setting as a drift is told over. */
const framesMax = 24;
/** Settings that are remembered: those of a day's shots. */
const seriesMax = 64;

interface Seen {
  readonly frame: string;
  readonly atMs: EpochMs;
  readonly light: LightMap;
}

/** Light of the last frames, by camera, shot and settings. It begins anew with the station: two frames later it speaks. */
export class LightBook {
  readonly #series = new Map<string, Seen[]>();

  /** Takes a frame's light down and says how it stands to that of the frames before it. */
  take(
    row: Pick<FrameRow, 'id' | 'job' | 'shot' | 'camera' | 'orderMs' | 'capture'>,
    { exposed }: FrameReadings,
  ): LightTrend | null {
    const key = keyOf(row);
    if (key === null || exposed.source === 'preview') return null;
    const others = (this.#series.get(key) ?? []).filter(({ frame }) => frame !== row.id);
    const earlier = others.filter(({ atMs }) => atMs < row.orderMs);
    const all = [...others, { frame: row.id, atMs: row.orderMs, light: exposed.light }];
    all.sort((a, b) => a.atMs - b.atMs);
    this.#series.delete(key);
    this.#series.set(key, all.slice(-framesMax));
    for (const oldest of this.#series.keys()) {
      if (this.#series.size <= seriesMax) break;
      this.#series.delete(oldest);
    }
    return lightTrend(
      exposed.light,
      earlier.map(({ light }) => light),
    );
  }
}

/** Null where the camera does not say what its dials stood at: then nothing tells that they were the same. */
function keyOf({
  job,
  shot,
  camera,
  capture,
}: Pick<FrameRow, 'job' | 'shot' | 'camera' | 'capture'>): string | null {
  const { exposureTimeS, fNumber, sensitivity }: CaptureFacts = capture ?? {};
  if (exposureTimeS === undefined || fNumber === undefined || sensitivity === undefined) return null;
  return JSON.stringify([job, shot, camera, exposureTimeS, fNumber, sensitivity]);
}
