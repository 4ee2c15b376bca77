import type { EpochMs } from '../../base/index.ts';
import type { CaptureFacts, FrameReadings, LightMap, LightTrend } from '../../facts/index.ts';
import { lightTrend } from '../../judge/index.ts';
import type { FrameRow, Register } from '../../register/index.ts';

/** As many frames of one setting as a drift is told over. */
const framesMax = 24;
/** As many frames of a shot are looked through for those of one setting. */
const lookedThroughMax = 96;
/** Settings that are remembered: those of a day's shots. */
const seriesMax = 64;

interface Seen {
  readonly frame: string;
  readonly atMs: EpochMs;
  readonly light: LightMap;
}

/** A frame as far as its light is concerned. */
export type LitFrame = Pick<FrameRow, 'id' | 'job' | 'shot' | 'camera' | 'orderMs' | 'capture'>;

/** How a frame's light stands to that of the frames before it. */
export interface PlacedLight {
  readonly trend: LightTrend | null;
  /** Frames after it whose own trend it changes: what waits is read newest first. */
  readonly later: readonly { readonly frame: string; readonly trend: LightTrend | null }[];
}

/** Light of the last frames, by camera, shot and settings; what was read before the station's start is in the register. */
export class LightBook {
  readonly #register: Pick<Register, 'litFrames'>;
  readonly #series = new Map<string, readonly Seen[]>();

  constructor(register: Pick<Register, 'litFrames'>) {
    this.#register = register;
  }

  /** Takes a frame's light down in the order of the shutter. */
  async take(row: LitFrame, { exposed }: FrameReadings): Promise<PlacedLight> {
    const key = keyOf(row);
    if (key === null || exposed.source === 'preview') return { trend: null, later: [] };
    const own: Seen = { frame: row.id, atMs: row.orderMs, light: exposed.light };
    const seen = this.#series.get(key) ?? (await this.#recall(key, row));
    const others = seen.filter(({ frame }) => frame !== row.id);
    const all = [...others, own].sort((a, b) => a.atMs - b.atMs).slice(-framesMax);
    this.#keep(key, all);
    const place = all.indexOf(own);
    // Older than all that are remembered: there is nothing before it, and too much behind.
    if (place < 0) return { trend: null, later: [] };
    return {
      trend: trendAt(all, place),
      later: all
        .slice(place + 1)
        .map(({ frame }, after) => ({ frame, trend: trendAt(all, place + 1 + after) })),
    };
  }

  /** The newest of the shot with these settings, oldest first. */
  async #recall(key: string, { job, shot, camera }: LitFrame): Promise<readonly Seen[]> {
    const upTo = { orderMs: Number.MAX_SAFE_INTEGER, id: '' };
    const rows = await this.#register.litFrames({ job, shot, camera, upTo, limit: lookedThroughMax });
    return rows
      .filter(({ source, capture }) => source !== 'preview' && keyOf({ job, shot, camera, capture }) === key)
      .map(({ id, orderMs, light }) => ({ frame: id, atMs: orderMs, light }))
      .slice(-framesMax);
  }

  #keep(key: string, seen: readonly Seen[]): void {
    this.#series.delete(key);
    this.#series.set(key, seen);
    for (const oldest of this.#series.keys()) {
      if (this.#series.size <= seriesMax) return;
      this.#series.delete(oldest);
    }
  }
}

function trendAt(seen: readonly Seen[], place: number): LightTrend | null {
  const own = seen[place];
  if (own === undefined) return null;
  return lightTrend(
    own.light,
    seen.slice(0, place).map(({ light }) => light),
  );
}

/** Null where the camera does not say what its dials stood at: then nothing tells that they were the same. */
function keyOf({ job, shot, camera, capture }: Omit<LitFrame, 'id' | 'orderMs'>): string | null {
  const { exposureTimeS, fNumber, sensitivity }: CaptureFacts = capture ?? {};
  if (exposureTimeS === undefined || fNumber === undefined || sensitivity === undefined) return null;
  return JSON.stringify([job, shot, camera, exposureTimeS, fNumber, sensitivity]);
}
