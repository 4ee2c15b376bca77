import type { DrawnPicture, DrawnTile, PictureDrawer } from '../drawer/index.ts';
import { canvasDrawer, placeCanvas } from '../drawer/index.ts';
import { basePictureAddress, regionAddress } from '../link/index.ts';
import { BitmapLoader, type HeldBitmap } from '../loader/bitmap-loader.ts';
import { fetchBitmap } from '../loader/fetch-bitmap.ts';
import { TileLoader } from '../loader/tile-loader.ts';
import {
  fitBox,
  placeOf,
  type SizeCssPx,
  seenPart,
  type Tile,
  tilesFor,
  type ZoomStage,
  type ZoomView,
} from '../viewport/index.ts';
import type { ZoomMotion } from './zoom-motion.ts';

/** What there is of the frame on the page. */
export interface Painted {
  readonly frameId: string;
  readonly picture: DrawnPicture;
  /** Version of the rendering where there is one, whose pixels can be had at full size; else null. */
  readonly version: number | null;
  readonly free: SizeCssPx;
  readonly devicePixelRatio: number;
}

/** Two screens of tiles on a large screen: going back and forth fetches nothing. */
const tileBytesMax = 128 * 1024 * 1024;
/** With the picture and the events, as many connections as browsers open to one station. */
const tileLanes = 4;
/** The half-size rendering of the frame before, for stepping to and fro. */
const baseBytesMax = 64 * 1024 * 1024;
/** A rendering enlarged by less than this is as good as its tiles. */
const enlargedBarely = 1.04;

/** Puts the picture on its canvas: the whole of it in its box, or a part that fills the free space. */
export class PicturePainter {
  readonly #canvas: HTMLCanvasElement;
  readonly #motion: ZoomMotion;
  readonly #drawer: PictureDrawer;
  readonly #tiles: TileLoader;
  readonly #bases = new BitmapLoader({ cacheBytesMax: baseBytesMax, decodeWidthPx: null });
  #painted: Painted | null = null;
  #base: Base | null = null;
  #soon: number | null = null;

  constructor(canvas: HTMLCanvasElement, motion: ZoomMotion) {
    this.#canvas = canvas;
    this.#motion = motion;
    this.#drawer = canvasDrawer(canvas);
    this.#tiles = new TileLoader({
      cacheBytesMax: tileBytesMax,
      lanes: tileLanes,
      fetchTile: fetchBitmap,
      onTile: () => this.#paintSoon(),
    });
  }

  /** Takes what is on the page from now on, and draws it. */
  show(painted: Painted | null): void {
    this.#painted = painted;
    this.#motion.setStage(painted === null ? null : stageOf(painted));
    this.paint();
  }

  /** Draws where one looks now with what there is, and asks for what is missing. */
  paint(): void {
    const { stage, view } = this.#motion;
    const painted = this.#painted;
    if (painted === null || stage === null) return;
    this.#wish(painted, stage);
    if (view === null) this.#paintWhole(painted);
    else this.#paintPart(painted, stage, view);
    this.#canvas.dataset.zoom = String(view?.scale ?? 'whole');
    this.#canvas.dataset.missing = String(this.#tiles.missing + (this.#awaitsBase(painted) ? 1 : 0));
  }

  /** With the screen's next frame, however many tiles come until then. */
  #paintSoon(): void {
    this.#soon ??= requestAnimationFrame(() => {
      this.#soon = null;
      this.paint();
    });
  }

  close(): void {
    if (this.#soon !== null) cancelAnimationFrame(this.#soon);
    this.#tiles.close();
    this.#base?.held?.letGo();
    this.#base = null;
    this.#painted = null;
  }

  #paintWhole({ picture, free, devicePixelRatio }: Painted): void {
    const box = fitBox(picture.full, free, devicePixelRatio);
    placeCanvas(this.#canvas, box);
    this.#drawer.draw(picture, box);
  }

  #paintPart(painted: Painted, stage: ZoomStage, view: ZoomView): void {
    const { free } = painted;
    placeCanvas(this.#canvas, { leftCssPx: 0, topCssPx: 0, ...free });
    const seen = tilesFor(seenPart(view, stage), stage.picture);
    const tiles = seen.flatMap((tile): DrawnTile[] => {
      const bitmap = painted.version === null ? null : this.#tiles.get(addressOf(painted, tile));
      return bitmap === null ? [] : [{ bitmap, tile }];
    });
    this.#drawer.drawPart({
      free: stage.free,
      place: placeOf(view, stage),
      whole: this.#wholeFor(painted),
      tiles,
      covered: tiles.length === seen.length,
    });
  }

  /** The finest picture of all of the frame that is here. */
  #wholeFor({ frameId, picture }: Painted): DrawnPicture {
    const base = this.#base;
    if (base?.held == null || base.frameId !== frameId) return picture;
    return { bitmap: base.held.bitmap, orientation: 1, full: picture.full };
  }

  /** Asks for what the way leads to, not for what it passes. */
  #wish(painted: Painted, stage: ZoomStage): void {
    const { target } = this.#motion;
    if (target === null || painted.version === null) {
      this.#tiles.want([]);
      return;
    }
    this.#wishBase(painted);
    // Before the base is here it is taken to be half the size, as a raw's is.
    const baseWidthPx = this.#base?.held?.bitmap.width ?? stage.picture.widthPx / 2;
    const needed = target.scale * stage.picture.widthPx > baseWidthPx * enlargedBarely;
    const tiles = needed ? tilesFor(seenPart(target, stage), stage.picture) : [];
    this.#tiles.want(tiles.map((tile) => addressOf(painted, tile)));
  }

  #awaitsBase({ version }: Painted): boolean {
    return this.#motion.target !== null && version !== null && this.#base?.held == null;
  }

  #wishBase({ frameId, version }: Painted): void {
    if (version === null) return;
    const address = basePictureAddress(frameId, version);
    if (this.#base?.address === address) return;
    const before = this.#base;
    const base: Base = { frameId, address, held: null };
    this.#base = base;
    before?.held?.letGo();
    this.#bases.hold(address).then(
      (held) => {
        if (this.#base !== base) return held.letGo();
        base.held = held;
        this.#paintSoon();
      },
      () => {
        // Asked for again with the next movement; until then the tiles and the smaller picture serve.
        if (this.#base === base) this.#base = null;
      },
    );
  }
}

/** The whole rendering at half size, from which smaller ones are made. */
interface Base {
  readonly frameId: string;
  readonly address: string;
  held: HeldBitmap | null;
}

function stageOf({ picture, free, devicePixelRatio }: Painted): ZoomStage {
  return {
    picture: picture.full,
    free: {
      widthDevicePx: Math.max(1, Math.floor(free.widthCssPx * devicePixelRatio)),
      heightDevicePx: Math.max(1, Math.floor(free.heightCssPx * devicePixelRatio)),
    },
  };
}

function addressOf({ frameId, version }: Painted, tile: Tile): string {
  return regionAddress(frameId, tile, version ?? 0);
}
