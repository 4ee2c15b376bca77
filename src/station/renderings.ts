import { mkdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { renderingEdition, type TargetBalance } from '../develop/index.ts';
import { type Look, sharesToOriginal } from '../look/index.ts';
import type { DevelopPool, PictureFormat, RenderAnswer } from '../workers/index.ts';
import { RenderingShelf, type RenderingShelfOptions } from './rendering-shelf.ts';

/** What a rendering is made from. */
export interface RenderSource {
  /** The original, absolute. */
  readonly path: string;
  readonly sha256: string;
  readonly kind: 'raw' | 'raster';
  /** Null: shown as the camera made it. */
  readonly look: Look | null;
  /** Empty where there is no look. */
  readonly lookHash: string;
  /** Null: by its own balance and its camera's matrix. */
  readonly balance: TargetBalance | null;
  /** Empty where there is no balance of a target. */
  readonly balanceHash: string;
}

/** What beside the original decides how a rendering looks, and by which rules: short enough for the name of a file. */
export function treatmentKey({
  lookHash,
  balanceHash,
}: Pick<RenderSource, 'lookHash' | 'balanceHash'>): string {
  const look = `${renderingEdition}-${lookHash.slice(0, 16) || 'as-is'}`;
  return balanceHash === '' ? look : `${look}-${balanceHash.slice(0, 16)}`;
}

/** A picture at full size, as the contract tells it. */
export interface FullSize {
  readonly width: number;
  readonly height: number;
  /** The whole upright original, where the look placed it otherwise. */
  readonly original: {
    readonly width: number;
    readonly height: number;
    /** As the contract tells it. */
    readonly toOriginal: number[];
  } | null;
}

export function fullSizeOf(
  { widthPx: width, heightPx: height, original }: Pick<RenderAnswer, 'widthPx' | 'heightPx' | 'original'>,
  look: Look | null,
): FullSize {
  if (original === undefined || look === null) return { width, height, original: null };
  const toOriginal = [...sharesToOriginal(look.geometry, original)];
  return { width, height, original: { width: original.widthPx, height: original.heightPx, toOriginal } };
}

/** A rendering in the cache. */
export interface Rendering {
  readonly path: string;
  /** Hash of original, edition of the engine, look and target, size and format. */
  readonly etag: string;
  readonly format: PictureFormat;
}

/** Sizes are rounded up to these steps, so that a page that is dragged wider does not fill the disk. */
const edgeStepPx = 64;
/** Larger than any screen there is; a larger wish gets the base. */
const edgeMaxPx = 8192;
/** Enough for a screen of 4k with a raster original; a raw's base is half its size. */
const rasterLongEdgePx = 4096;
/** Sizes that are remembered: those of a week's frames under a few looks, a megabyte. */
const sizesMax = 10_000;

/**
 * Renderings on disk within a bound, keyed by original, edition, look and target: may be deleted at any time. Each is made once, however
 * many ask for it at the same moment.
 */
export class Renderings {
  readonly #folder: string;
  readonly #pool: DevelopPool;
  readonly #making = new Map<string, Promise<unknown>>();
  /** By the path of the base. */
  readonly #sizes = new Map<string, FullSize>();

  readonly #shelf: RenderingShelf;

  constructor({ folder, bytesMax, now, pool }: RenderingShelfOptions & { readonly pool: DevelopPool }) {
    this.#folder = folder;
    this.#pool = pool;
    this.#shelf = new RenderingShelf({ folder, bytesMax, now });
  }

  /**
   * Makes the base rendering that all smaller ones come from. `judgedNext`: its readings are wanted right after. Rejects as
   * `DevelopPool.render`.
   */
  async makeBase(source: RenderSource, judgedNext = false): Promise<RenderAnswer> {
    const outPath = await this.#pathOf(source, 'base', 'jpeg');
    const answer = await this.#once(outPath, () =>
      this.#pool.render({
        path: source.path,
        kind: source.kind,
        look: source.look,
        balance: source.balance,
        size: source.kind === 'raw' ? 'half' : { longEdgePx: rasterLongEdgePx },
        format: 'jpeg',
        outPath,
        judgedNext,
      }),
    );
    await this.#shelf.used(outPath);
    this.#sizes.set(outPath, fullSizeOf(answer, source.look));
    for (const oldest of this.#sizes.keys()) {
      if (this.#sizes.size <= sizesMax) break;
      this.#sizes.delete(oldest);
    }
    return answer;
  }

  /**
   * The whole picture at full size, as its look places it: a crop makes it smaller. The base is made where that is not known
   * yet in this run. Rejects as {@link makeBase}.
   */
  async fullSize(source: RenderSource): Promise<FullSize> {
    const base = await this.#pathOf(source, 'base', 'jpeg');
    const known = this.#sizes.get(base);
    return known !== undefined && (await exists(base))
      ? known
      : fullSizeOf(await this.makeBase(source), source.look);
  }

  /** A rendering of about this long edge (or the base), made if need be. Rejects as `DevelopPool`. */
  async picture(source: RenderSource, longEdgePx: number | null, format: PictureFormat): Promise<Rendering> {
    const base = await this.#pathOf(source, 'base', 'jpeg');
    if (await exists(base)) await this.#shelf.used(base);
    else await this.makeBase(source);
    if (longEdgePx === null && format === 'jpeg')
      return { path: base, etag: this.#etag(source, 'base', format), format };
    const edge = longEdgePx ?? edgeMaxPx;
    const path = await this.#pathOf(source, String(edge), format);
    if (!(await exists(path))) {
      await this.#once(path, () =>
        this.#pool.resize({ path: base, longEdgePx: edge, format, outPath: path }),
      );
    }
    await this.#shelf.used(path);
    return { path, etag: this.#etag(source, String(edge), format), format };
  }

  async #once<T>(key: string, make: () => Promise<T>): Promise<T> {
    const running = this.#making.get(key);
    // The same key is always made by the same call, so the promise holds the same type.
    if (running !== undefined) return running as Promise<T>;
    const made = make().finally(() => this.#making.delete(key));
    this.#making.set(key, made);
    return made;
  }

  async #pathOf(source: RenderSource, size: string, format: PictureFormat): Promise<string> {
    const folder = join(this.#folder, source.sha256.slice(0, 2), source.sha256);
    await mkdir(folder, { recursive: true });
    return join(folder, `${treatmentKey(source)}-${size}.${format === 'jpeg' ? 'jpg' : format}`);
  }

  #etag(source: RenderSource, size: string, format: PictureFormat): string {
    return `${source.sha256.slice(0, 32)}-${treatmentKey(source)}-${size}-${format}`;
  }
}

/**
 * The long edge of a picture that shall be about `widthPx` wide, rounded up to a step: a portrait is higher than wide. Null
 * for as much as there is: the base is answered, and no second one made of it. `shape` is the upright picture's size, pixels.
 */
export function longEdgeFor(
  widthPx: number,
  shape: { readonly width: number; readonly height: number },
  kind: RenderSource['kind'],
): number | null {
  const wanted = widthPx * Math.max(1, shape.height / shape.width);
  const edge = Math.max(edgeStepPx, Math.ceil(wanted / edgeStepPx) * edgeStepPx);
  const full = Math.max(shape.width, shape.height);
  const base = kind === 'raw' ? full / 2 : Math.min(full, rasterLongEdgePx);
  return edge >= base ? null : edge;
}

async function exists(path: string): Promise<boolean> {
  try {
    return (await stat(path)).size > 0;
  } catch {
    return false;
  }
}
