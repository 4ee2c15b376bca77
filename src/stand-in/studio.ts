/** The virtual studio: renders each shot once, then exposes as many frames of it as wanted. */

import type { Rendering } from './core/exposure.ts';
import type { FramePurpose, FrameRecipe, ShotName } from './core/frame-plan.ts';
import type { FrameSize } from './core/frame-size.ts';
import type { Region } from './core/render-region.ts';
import { rendererVersion } from './core/renderer-version.ts';
import { type SetVariant, variantName, variantOf } from './core/set-variant.ts';
import type { OnProgress } from './progress.ts';
import type { RenderCrew } from './render-crew.ts';
import type { ExposeAnswer, SharedCodes } from './render-jobs.ts';
import type { RenderingStore } from './rendering-store.ts';

export interface StudioOptions {
  readonly crew: RenderCrew;
  /** Where renderings outlive the session; null keeps none. */
  readonly store: RenderingStore | null;
  readonly size: FrameSize;
  readonly signal: AbortSignal;
  readonly onProgress: OnProgress;
}

/**
 * Rows a worker takes at a time: an eighth of the frame, since bands overlap by the widest circle of confusion, which
 * grows with the frame; not so few that preparing a band costs more than rendering it.
 */
const bandsPerFrame = 8;
const bandRowsMin = 128;

/** What has to be rendered for a recipe. */
interface Subject {
  readonly shot: ShotName;
  readonly purpose: FramePurpose;
  readonly variant: SetVariant;
}

export class Studio {
  readonly #options: StudioOptions;
  /** The last rendering only: 37 MB at 6 megapixels. */
  #held: { readonly key: string; readonly rendering: Promise<SharedRendering> } | null = null;

  /** Renderings on their way to the store. */
  #keeping: Promise<void> = Promise.resolve();

  constructor(options: StudioOptions) {
    this.#options = options;
  }

  /**
   * One frame of it; `pressed` asks for the mosaic as lossless JPEG, too. Rejects with the signal's reason, or
   * `stand-in-worker-failed`.
   */
  async expose(recipe: FrameRecipe, pressed: boolean): Promise<ExposeAnswer> {
    const { crew, signal } = this.#options;
    const rendering = await this.#rendering(recipe);
    signal.throwIfAborted();
    const codes = rendering.codes;
    return await crew.run<'expose'>({ kind: 'expose', codes, size: rendering.size, recipe, pressed });
  }

  /** Renders what the recipe needs, or fetches it from the store, so that the shutter need not wait for it. */
  async prepare(recipe: FrameRecipe): Promise<void> {
    await this.#rendering(recipe);
  }

  /** Settles when everything rendered so far is in the store. */
  async settle(): Promise<void> {
    await this.#keeping;
  }

  #rendering(recipe: FrameRecipe): Promise<SharedRendering> {
    const { shot, purpose } = recipe;
    const variant = variantOf(recipe, this.#options.size);
    const key = `${shot}-${purpose}${variantName(variant)}`;
    if (this.#held?.key === key) return this.#held.rendering;
    const rendering = this.#loadOrRender({ shot, purpose, variant });
    this.#held = { key, rendering };
    return rendering;
  }

  async #loadOrRender(subject: Subject): Promise<SharedRendering> {
    const { crew, store, size } = this.#options;
    const set = `${subject.shot}-${subject.purpose}${variantName(subject.variant)}`;
    const name = `${set}-${size.widthPx}x${size.heightPx}-v${rendererVersion}`;
    const full = fullRegion(size);
    const rowLength = full.widthPx * 3;
    const codes = new Uint16Array(new SharedArrayBuffer(rowLength * full.heightPx * 2));
    const bytes = (await store?.load(name)) ?? null;
    if (bytes !== null && (await crew.run<'unpack'>({ kind: 'unpack', bytes, codes, rowLength })).whole) {
      return { codes, size };
    }
    await this.#render(subject, full, codes);
    this.#keeping = this.#keep(name, codes, rowLength);
    return { codes, size };
  }

  /** In passing: the shutter does not wait for the disk, and a rendering that could not be kept is made again. */
  async #keep(name: string, codes: SharedCodes, rowLength: number): Promise<void> {
    const { crew, store } = this.#options;
    if (store === null) return;
    const packed = await crew.run<'pack'>({ kind: 'pack', codes, rowLength }).catch(() => null);
    if (packed !== null) await store.save(name, packed.bytes);
  }

  async #render(subject: Subject, full: Region, codes: SharedCodes): Promise<void> {
    const { shot } = subject;
    const { crew, size, signal, onProgress } = this.#options;
    const bands = bandsOf(full);
    let done = 0;
    onProgress({ code: 'stand-in.rendering', args: { shot, share: 0 } });
    const renderBand = async (region: Region): Promise<void> => {
      signal.throwIfAborted();
      const answer = await crew.run<'render'>({ kind: 'render', ...subject, size, region });
      codes.set(answer.codes, region.top * full.widthPx * 3);
      done++;
      onProgress({ code: 'stand-in.rendering', args: { shot, share: done / bands.length } });
    };
    await inLanes(bands, Math.max(1, crew.threads), renderBand);
  }
}

type SharedRendering = Rendering & { readonly codes: SharedCodes };

function fullRegion(size: FrameSize): Region {
  const widthPx = size.widthPx + 2 * size.marginPx;
  const heightPx = size.heightPx + 2 * size.marginPx;
  return { left: 0, top: 0, widthPx, heightPx };
}

function bandsOf(full: Region): Region[] {
  const bands: Region[] = [];
  const bandRows = Math.max(bandRowsMin, Math.ceil(full.heightPx / bandsPerFrame));
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
