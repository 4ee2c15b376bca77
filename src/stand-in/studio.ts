/** The virtual studio: renders each shot once, then exposes as many frames of it as wanted. */

import type { SmallPicture } from './core/camera-picture.ts';
import type { Rendering } from './core/exposure.ts';
import type { FramePurpose, FrameRecipe, ShotName } from './core/frame-plan.ts';
import type { FrameSize } from './core/frame-size.ts';
import type { Region } from './core/render-region.ts';
import { rendererVersion } from './core/renderer-version.ts';
import type { OnProgress } from './progress.ts';
import type { RenderCrew } from './render-crew.ts';
import type { RenderingStore } from './rendering-store.ts';

export interface Exposure {
  readonly mosaic: Uint16Array<ArrayBuffer>;
  readonly picture: SmallPicture;
}

export interface StudioOptions {
  readonly crew: RenderCrew;
  readonly store: RenderingStore;
  readonly size: FrameSize;
  readonly signal: AbortSignal;
  readonly onProgress: OnProgress;
}

/** Rows a worker takes at a time: long enough that a band's overlap is cheap, short enough that progress moves. */
const bandRows = 128;

export class Studio {
  readonly #options: StudioOptions;
  /** The last rendering only: 37 MB at 6 megapixels. */
  #held: { readonly key: string; readonly rendering: Promise<SharedRendering> } | null = null;

  constructor(options: StudioOptions) {
    this.#options = options;
  }

  /** Rejects with the signal's reason, or `stand-in-worker-failed`. */
  async expose(recipe: FrameRecipe): Promise<Exposure> {
    const { crew, signal } = this.#options;
    const rendering = await this.#rendering(recipe.shot, recipe.purpose);
    signal.throwIfAborted();
    const codes = rendering.codes;
    return await crew.run<'expose'>({ kind: 'expose', codes, size: rendering.size, recipe });
  }

  /** Renders what the recipe needs, or fetches it from the store, so that the shutter need not wait for it. */
  async prepare(recipe: FrameRecipe): Promise<void> {
    await this.#rendering(recipe.shot, recipe.purpose);
  }

  #rendering(shot: ShotName, purpose: FramePurpose): Promise<SharedRendering> {
    const key = `${shot}-${purpose}`;
    if (this.#held?.key === key) return this.#held.rendering;
    const rendering = this.#loadOrRender(shot, purpose);
    this.#held = { key, rendering };
    return rendering;
  }

  async #loadOrRender(shot: ShotName, purpose: FramePurpose): Promise<SharedRendering> {
    const { store, size } = this.#options;
    const name = `${shot}-${purpose}-${size.widthPx}x${size.heightPx}-v${rendererVersion}`;
    const full = fullRegion(size);
    const kept = await store.load(name, full.widthPx * full.heightPx * 3);
    if (kept !== null) return { codes: kept, size };
    const codes = await this.#render(shot, purpose, full);
    await store.save(name, codes);
    return { codes, size };
  }

  async #render(
    shot: ShotName,
    purpose: FramePurpose,
    full: Region,
  ): Promise<Uint16Array<SharedArrayBuffer>> {
    const { crew, size, signal, onProgress } = this.#options;
    const codes = new Uint16Array(new SharedArrayBuffer(full.widthPx * full.heightPx * 6));
    const bands = bandsOf(full);
    let done = 0;
    onProgress({ code: 'stand-in.rendering', args: { shot, share: 0 } });
    const renderBand = async (region: Region): Promise<void> => {
      signal.throwIfAborted();
      const answer = await crew.run<'render'>({ kind: 'render', shot, purpose, size, region });
      codes.set(answer.codes, region.top * full.widthPx * 3);
      done++;
      onProgress({ code: 'stand-in.rendering', args: { shot, share: done / bands.length } });
    };
    await inLanes(bands, Math.max(1, crew.threads), renderBand);
    return codes;
  }
}

type SharedRendering = Rendering & { readonly codes: Uint16Array<SharedArrayBuffer> };

function fullRegion(size: FrameSize): Region {
  const widthPx = size.widthPx + 2 * size.marginPx;
  const heightPx = size.heightPx + 2 * size.marginPx;
  return { left: 0, top: 0, widthPx, heightPx };
}

function bandsOf(full: Region): Region[] {
  const bands: Region[] = [];
  for (let top = 0; top < full.heightPx; top += bandRows) {
    bands.push({ ...full, top, heightPx: Math.min(bandRows, full.heightPx - top) });
  }
  return bands;
}

/** Runs `work` over `items` with at most `lanes` under way; the first failure stops the rest. */
async function inLanes<T>(
  items: readonly T[],
  lanes: number,
  work: (item: T) => Promise<void>,
): Promise<void> {
  const waiting = [...items];
  const lane = async (): Promise<void> => {
    for (let item = waiting.shift(); item !== undefined; item = waiting.shift()) await work(item);
  };
  await Promise.all(Array.from({ length: lanes }, lane));
}
