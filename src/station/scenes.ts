import { GiB } from '../base/index.ts';
import { renderingEdition } from '../develop/index.ts';
import type { FileRow, FrameRow } from '../register/index.ts';
import type { SceneAnswer, SceneQuery } from '../serve/index.ts';
import type { DevelopPool, SceneJob } from '../workers/index.ts';
import { pathOfFile } from './frame-files.ts';
import { pictureOfRow } from './picture-of-row.ts';
import { RegionShelf } from './region-shelf.ts';
import { fileToShow } from './render-source.ts';
import { SharedQueue } from './shared-queue.ts';
import type { BalancedOn } from './target-balance.ts';

export interface ScenesOptions {
  /** Cache folder. */
  readonly folder: string;
  readonly homePath: string;
  readonly pool: DevelopPool;
  readonly row: (frame: string) => Promise<FrameRow | null>;
  /** What it is balanced by in place of its own balance, or null. */
  readonly balance: (row: FrameRow) => BalancedOn | null;
}

/** Some sixty pictures of 2048 pixels: those that somebody worked on lately. */
const shelfBytesMax: number = GiB;

/** The tiles of a large screen; who asks for more has to wait for some of them first. */
const waitingMax = 64;

/** Widths are rounded up to these steps, so that a page that is dragged wider shares what is made. */
const stepPx = 64;

/** The light of frames before any look, made when it is asked for and kept on disk for a while. */
export class Scenes {
  readonly #options: ScenesOptions;
  readonly #shelf: RegionShelf;
  // One: a new frame never waits for more than one of them.
  readonly #queue = new SharedQueue<void>({ lanes: 1, waitingMax });

  constructor(options: ScenesOptions) {
    this.#options = options;
    this.#shelf = new RegionShelf({ folder: options.folder, bytesMax: shelfBytesMax });
  }

  /**
   * Null where there is no such frame. Rejects `region-outside` for a tile beyond the picture, `busy`, with the signal's
   * reason, and as `DevelopPool.scene`.
   */
  async answer(frame: string, query: SceneQuery, signal: AbortSignal): Promise<SceneAnswer | null> {
    const row = await this.#options.row(frame);
    if (row === null) return null;
    const shown = pictureOfRow(row);
    const file = fileToShow(row);
    if (shown.state !== 'rendered' || file === null || file.sha256 === null) {
      const notYet = { code: 'picture.not-yet', args: { name: row.name } };
      return { kind: 'none', finding: shown.state === 'cannot' ? shown.reason : notYet };
    }
    const { size, name: sizeName } = sizeOf(query);
    const balance = shown.source === 'raw' ? this.#options.balance(row) : null;
    const treatment = `${renderingEdition}-${balance?.hash.slice(0, 16) ?? 'as-shot'}`;
    const etag = [file.sha256.slice(0, 32), treatment, sizeName].join('-');
    const path = await this.#made(`${etag}.exr`, file, shown.source, balance, size, signal);
    return { kind: 'picture', content: { kind: 'file', path }, contentType: 'image/x-exr', etag };
  }

  async #made(
    name: string,
    file: FileRow,
    kind: SceneJob['kind'],
    balance: BalancedOn | null,
    size: SceneJob['size'],
    signal: AbortSignal,
  ): Promise<string> {
    const outPath = await this.#shelf.place(name);
    if (await this.#shelf.has(name)) return outPath;
    const path = pathOfFile(this.#options.homePath, file);
    const make = async (): Promise<void> => {
      const job: SceneJob = { path, kind, balance: balance?.balance ?? null, size, outPath };
      const { bytes } = await this.#options.pool.scene(job);
      await this.#shelf.added(name, bytes);
    };
    await this.#queue.run(name, make, signal);
    return outPath;
  }
}

function sizeOf(query: SceneQuery): { readonly size: SceneJob['size']; readonly name: string } {
  if (query.kind === 'tile') {
    const { edgePx, column, row } = query;
    const region = { leftPx: column * edgePx, topPx: row * edgePx, widthPx: edgePx, heightPx: edgePx };
    return { size: { region }, name: `tile-${edgePx}-${column}-${row}` };
  }
  const widthPx = Math.ceil(query.widthPx / stepPx) * stepPx;
  return { size: { widthPx }, name: `width-${widthPx}` };
}
