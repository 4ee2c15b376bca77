import type { EpochMs } from '../../base/index.ts';
import {
  type CaptureFacts,
  type FrameReadings,
  type LightMap,
  type LightTrend,
  type Purpose,
  showsLight,
} from '../../facts/index.ts';
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
  readonly purpose: Purpose;
}

/** A frame as far as its light is concerned. */
export type LitFrame = Pick<FrameRow, 'id' | 'job' | 'shot' | 'camera' | 'orderMs' | 'capture' | 'purpose'>;

export interface TrendOfFrame {
  readonly frame: string;
  readonly trend: LightTrend | null;
}

/** How a frame's light stands to that of the frames before it. */
export interface PlacedLight {
  readonly trend: LightTrend | null;
  /** Frames after it whose own trend it changes: what waits is read newest first. */
  readonly later: readonly TrendOfFrame[];
}

/**
 * Light of the last frames, by camera, shot and settings; what was read before the station's start is in the register. What
 * a card, a target, a test, an empty set or another lighting shows is not the light of the shot: none of them is counted.
 */
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
    const own: Seen = { frame: row.id, atMs: row.orderMs, light: exposed.light, purpose: row.purpose };
    const seen = this.#series.get(key) ?? (await this.#recall(key, row));
    const others = seen.filter(({ frame }) => frame !== row.id);
    const all = [...others, own].sort((a, b) => a.atMs - b.atMs).slice(-framesMax);
    this.#keep(key, all);
    const place = all.indexOf(own);
    // Older than all that are remembered: there is nothing before it, and too much behind.
    if (place < 0) return { trend: null, later: [] };
    return {
      trend: trendAt(all, place),
      later: trendsFrom(all, place + 1),
    };
  }

  /** A frame is taken for something else now. Its own trend, and those of the frames after it. */
  intended(frame: string, purpose: Purpose): readonly TrendOfFrame[] {
    for (const [key, seen] of this.#series) {
      const place = seen.findIndex((each) => each.frame === frame);
      if (place < 0 || seen[place]?.purpose === purpose) continue;
      const all = seen.map((each) => (each.frame === frame ? { ...each, purpose } : each));
      this.#series.set(key, all);
      return trendsFrom(all, place);
    }
    return [];
  }

  /** The newest of the shot with these settings, oldest first. */
  async #recall(key: string, { job, shot, camera }: LitFrame): Promise<readonly Seen[]> {
    const upTo = { orderMs: Number.MAX_SAFE_INTEGER, id: '' };
    const rows = await this.#register.litFrames({ job, shot, camera, upTo, limit: lookedThroughMax });
    return rows
      .filter(({ source, capture }) => source !== 'preview' && keyOf({ job, shot, camera, capture }) === key)
      .map(({ id, orderMs, light, purpose }) => ({ frame: id, atMs: orderMs, light, purpose }))
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
  if (own === undefined || !showsLight(own.purpose)) return null;
  const before = seen.slice(0, place).filter(({ purpose }) => showsLight(purpose));
  return lightTrend(
    own.light,
    before.map(({ light }) => light),
  );
}

function trendsFrom(seen: readonly Seen[], first: number): TrendOfFrame[] {
  return seen.slice(first).map(({ frame }, after) => ({ frame, trend: trendAt(seen, first + after) }));
}

/** Null where the camera does not say what its dials stood at: then nothing tells that they were the same. */
function keyOf({ job, shot, camera, capture }: Omit<LitFrame, 'id' | 'orderMs' | 'purpose'>): string | null {
  const { exposureTimeS, fNumber, sensitivity }: CaptureFacts = capture ?? {};
  if (exposureTimeS === undefined || fNumber === undefined || sensitivity === undefined) return null;
  return JSON.stringify([job, shot, camera, exposureTimeS, fNumber, sensitivity]);
}
