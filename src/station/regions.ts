import { createHash } from 'node:crypto';
import { GiB, SetsideError } from '../base/index.ts';
import type { FramePicture } from '../contract/index.ts';
import { developErrors } from '../develop/index.ts';
import type { Size } from '../image/index.ts';
import type { FrameRow } from '../register/index.ts';
import type { RegionAnswer, RegionPicture, RegionQuery } from '../serve/index.ts';
import type { DevelopPool } from '../workers/index.ts';
import { inspectFile } from './arrival-watch.ts';
import type { CutPreview } from './core/first-view.ts';
import type { FirstViews } from './first-views.ts';
import { treatmentOf } from './frame-facts.ts';
import { pathOfFile, previewOnDisk } from './frame-files.ts';
import { shapeUnder } from './looks/shape-under.ts';
import { pictureOfRow } from './picture-of-row.ts';
import { RegionShelf } from './region-shelf.ts';
import { fileToShow, renderSourceAs } from './render-source.ts';
import type { RenderedBy } from './rendered-by.ts';
import { treatmentKey } from './renderings.ts';
import { SharedQueue } from './shared-queue.ts';

export interface RegionsOptions {
  /** Cache folder. */
  readonly folder: string;
  readonly homePath: string;
  readonly pool: DevelopPool;
  readonly views: FirstViews;
  readonly row: (frame: string) => Promise<FrameRow | null>;
  /** What it is rendered by now; with the look of this hash where one is named. Throws `no-look`. */
  readonly renderedBy: (row: FrameRow, look: string | undefined) => RenderedBy;
}

/** Some fifteen thousand tiles of 512 pixels: every frame of a day that somebody looked at closely. */
const shelfBytesMax: number = GiB;

/**
 * Two, so that a new frame waits for one region at most beside the one under way, and a worker never for its next.
 */
const lanes = 2;

/** The tiles of the largest screens of two pages; who asks for more has to wait for some of them first. */
export const regionsWaitingMax = 256;

/** A picture that regions are cut out of. */
interface Cutting {
  readonly source: RegionPicture['source'];
  /** Hash of the content, and of look and target where there are any. */
  readonly key: string;
  readonly make: (outPath: string, wish: RegionQuery) => Promise<{ readonly bytes: number }>;
}

/** Parts of frames at full size, made when they are asked for and kept on disk for a while. */
export class Regions {
  readonly #options: RegionsOptions;
  readonly #shelf: RegionShelf;
  readonly #queue = new SharedQueue<void>({ lanes, waitingMax: regionsWaitingMax });

  constructor(options: RegionsOptions) {
    this.#options = options;
    this.#shelf = new RegionShelf({ folder: options.folder, bytesMax: shelfBytesMax });
  }

  /**
   * A part of a frame's best picture; null where there is no such frame. A region that nobody waits for any longer is not
   * begun. Rejects `region-outside`, `busy`, with the signal's reason, and as `DevelopPool.render`.
   */
  async answer(frame: string, query: RegionQuery, signal: AbortSignal): Promise<RegionAnswer | null> {
    const row = await this.#options.row(frame);
    if (row === null) return null;
    const shown = pictureOfRow(row);
    const full = this.#sizeAsked(row, shown, query.look);
    if (full === null) return whyNone(row, shown);
    const wish = clipped(query, full);
    const cutting =
      shown.state === 'rendered'
        ? this.#fromOriginal(row, shown.source, query.look)
        : await this.#fromStandIn(row, full, query.look);
    return cutting === null ? whyNone(row, shown) : this.#made(cutting, wish, signal);
  }

  /** Of the picture that regions are cut out of: a look that is asked for may cut it otherwise than the one in force. */
  #sizeAsked(row: FrameRow, shown: FramePicture, look: string | undefined): Size | null {
    if (look === undefined || shown.state !== 'rendered' || shown.source !== 'raw') return sizeOf(shown);
    const { width, height } = shapeUnder(this.#options.renderedBy(row, look).look.document, shown);
    return { widthPx: width, heightPx: height };
  }

  async #made(cutting: Cutting, wish: RegionQuery, signal: AbortSignal): Promise<RegionPicture> {
    const { leftPx, topPx, widthPx, heightPx, scale, format } = wish;
    const etag = [cutting.key, leftPx, topPx, widthPx, heightPx, scale, format].join('-');
    const name = `${etag}.${format === 'jpeg' ? 'jpg' : format}`;
    const path = await this.#shelf.place(name);
    if (!(await this.#shelf.has(name))) {
      const make = async (): Promise<void> => {
        const { bytes } = await cutting.make(path, wish);
        await this.#shelf.added(name, bytes);
      };
      await this.#queue.run(name, make, signal);
    }
    return {
      kind: 'picture',
      content: { kind: 'file', path },
      contentType: `image/${format}`,
      etag,
      source: cutting.source,
    };
  }

  /** From the original itself, with its look. */
  #fromOriginal(row: FrameRow, kind: 'raw' | 'raster', look: string | undefined): Cutting | null {
    const file = fileToShow(row);
    if (file === null) return null;
    const path = pathOfFile(this.#options.homePath, file);
    const source = renderSourceAs(file, path, kind, this.#options.renderedBy(row, look));
    if (source === null) return null;
    if (look !== undefined && look !== source.lookHash)
      throw new SetsideError('no-look', `frame ${row.id} takes no look`);
    return {
      source: kind,
      key: `${source.sha256}-${treatmentKey(source)}`,
      make: (outPath, { leftPx, topPx, widthPx, heightPx, scale, format }) => {
        const { look, balance } = source;
        const size = { region: { leftPx, topPx, widthPx, heightPx }, scale };
        return this.#options.pool.render({ path, kind, look, balance, size, format, outPath });
      },
    };
  }

  /** What stands in for an original that cannot be developed takes no look. */
  async #fromStandIn(row: FrameRow, full: Size, look: string | undefined): Promise<Cutting | null> {
    if (look !== undefined) throw new SetsideError('no-look', `frame ${row.id} is not developed`);
    return (await this.#fromPartner(row, full)) ?? (await this.#fromPreview(row, full));
  }

  /** From a whole JPEG of the same frame, where the raw is not here yet or cannot be developed. */
  async #fromPartner(row: FrameRow, full: Size): Promise<Cutting | null> {
    for (const file of row.files) {
      if (file.sha256 === null || file.path === null || file.state === 'damaged') continue;
      const path = pathOfFile(this.#options.homePath, file);
      const { kind } = await inspectFile(path, file.sizeBytes);
      if (treatmentOf(kind) === 'show') return this.#fromPicture('raster', file.sha256, path, null, full);
    }
    return null;
  }

  /** From the largest preview inside the file, as far as it has arrived. */
  async #fromPreview(row: FrameRow, full: Size): Promise<Cutting | null> {
    const preview = this.#options.views.get(row.id) ?? (await previewOnDisk(row, this.#options.homePath));
    if (preview === null) return null;
    this.#options.views.set(row.id, preview);
    const hash = hashOf(preview);
    const name = `preview-${hash}.jpg`;
    if (!(await this.#shelf.has(name))) await this.#shelf.put(name, preview.jpeg);
    const path = await this.#shelf.place(name);
    return this.#fromPicture('preview', hash, path, preview.orientation, full);
  }

  #fromPicture(
    source: RegionPicture['source'],
    hash: string,
    path: string,
    orientation: CutPreview['orientation'] | null,
    full: Size,
  ): Cutting {
    return {
      source,
      key: `${hash}-${source}`,
      make: (outPath, { leftPx, topPx, widthPx, heightPx, scale, format }) => {
        const region = { leftPx, topPx, widthPx, heightPx };
        return this.#options.pool.preview({ path, orientation, full, region, scale, format, outPath });
      },
    };
  }
}

function sizeOf(shown: FramePicture): Size | null {
  if (shown.state === 'none' || shown.width === null || shown.height === null) return null;
  return { widthPx: shown.width, heightPx: shown.height };
}

function whyNone(row: FrameRow, shown: FramePicture): RegionAnswer {
  const notYet = { code: 'picture.not-yet', args: { name: row.name } };
  return { kind: 'none', finding: shown.state === 'cannot' ? shown.reason : notYet };
}

/** The part of the region inside the picture, so that whoever asks past an edge shares what is made with the others. */
function clipped(query: RegionQuery, full: Size): RegionQuery {
  const { leftPx, topPx } = query;
  const widthPx = Math.min(query.widthPx, full.widthPx - leftPx);
  const heightPx = Math.min(query.heightPx, full.heightPx - topPx);
  if (widthPx >= 1 && heightPx >= 1) return { ...query, widthPx, heightPx };
  throw new SetsideError('region-outside', developErrors['region-outside'], {
    details: { leftPx, topPx, ...full },
  });
}

const hashes = new WeakMap<CutPreview, string>();

/** Asked for each tile, worked out once. */
function hashOf(preview: CutPreview): string {
  const known = hashes.get(preview);
  if (known !== undefined) return known;
  const hash = createHash('sha256').update(preview.jpeg).digest('hex');
  hashes.set(preview, hash);
  return hash;
}
