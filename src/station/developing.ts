import { setTimeout as pause } from 'node:timers/promises';
import { type EpochMs, errorCode } from '../base/index.ts';
import type { FramePicture } from '../contract/index.ts';
import type { Finding } from '../facts/index.ts';
import type { Inspection } from '../formats/index.ts';
import type { MetadataReader } from '../metadata/index.ts';
import type { FileRow, FrameRow } from '../register/index.ts';
import { findPreview, inspectFile } from './arrival-watch.ts';
import type { CutPreview } from './core/first-view.ts';
import { NewestFirst } from './core/job-queue.ts';
import { type FileFacts, factsOfFile, notShownBecause, withCameAlong } from './frame-facts.ts';
import { pictureOfRow } from './picture-of-row.ts';
import { cameAlong } from './rating.ts';
import type { ReadFrame } from './readings/frame-judging.ts';
import { fileToShow, pictureVersion, renderSource, renderSourceAs } from './render-source.ts';
import { plainly, type RenderedBy } from './rendered-by.ts';
import { fullSizeOf, type Renderings, type RenderSource } from './renderings.ts';
import type { BalancedOn } from './target-balance.ts';

/** What came out for one frame. */
export interface Developed {
  readonly facts: FileFacts;
  readonly picture: FramePicture;
}

export interface DevelopingOptions {
  readonly renderings: Renderings;
  readonly reader: MetadataReader;
  /** Where a file of the register lies, absolute. */
  readonly pathOf: (file: FileRow) => string;
  readonly zoneOffsetMinutes: () => number;
  /** Frames at a time. */
  readonly lanes: number;
  readonly load: (frame: string) => Promise<FrameRow | null>;
  /** What was seen of a file when its last byte came; null where it has to be read for that. */
  readonly lastLook: (file: FileRow) => Inspection | null;
  /** What a frame is rendered by now. */
  readonly renderedBy: (row: FrameRow) => RenderedBy;
  /**
   * Reads what a frame's pixels say; right after its rendering the worker still has them. `asTarget`: looks for a target
   * whatever the frame was taken for.
   */
  readonly judge: (
    frame: string,
    source: RenderSource,
    facts: FileFacts,
    asTarget: boolean,
  ) => Promise<ReadFrame>;
  /** Called with what was read. */
  readonly judged: (frame: string, read: ReadFrame) => Promise<void>;
  /** Called with each outcome; frames come in the order they are done. */
  readonly done: (frame: string, developed: Developed) => Promise<void>;
  /** Called with the picture of a frame that was rendered again. */
  readonly doneAgain: (frame: string, picture: FramePicture) => Promise<void>;
  /** An unforeseen failure: the frame stays as it was. */
  readonly trouble: (thrown: unknown) => void;
}

/**
 * Makes kept frames visible behind the receiving: reads what the camera said, develops the raw or scales the picture,
 * newest shutter first.
 */
export class Developing {
  readonly #options: DevelopingOptions;
  readonly #queue = new NewestFirst<Work>();
  /** What is visible already and is to look otherwise: behind everything else, however new. */
  readonly #again = new NewestFirst<Work>();
  #running = 0;
  #closed = false;
  #idle: () => void = () => {};

  constructor(options: DevelopingOptions) {
    this.#options = options;
  }

  add(frame: string, atMs: EpochMs): void {
    this.#queue.add(frame, atMs, { frame, only: 'all' });
    this.#next();
  }

  /** For a frame that is rendered already: reads its pixels, once nothing newer waits. */
  addReadings(frame: string, atMs: EpochMs): void {
    this.#queue.add(frame, atMs, { frame, only: 'readings' });
    this.#next();
  }

  /** For a frame that is rendered already, with another look or by another target than counts now: renders it again, once nothing else waits. */
  addAgain(frame: string, atMs: EpochMs): void {
    this.#again.add(frame, atMs, { frame, only: 'picture' });
    this.#next();
  }

  /** Looks for a target in a frame now, whatever waits; settles when what was read is noted. */
  async readTarget(frame: string): Promise<void> {
    const looked = await this.#lookAt(frame);
    const source =
      looked === null ? null : renderSource(looked.file, looked.path, looked.facts.kind, plainly);
    if (looked === null || source === null) return;
    await this.#options.judged(frame, await this.#options.judge(frame, source, looked.facts, true));
  }

  /** Takes no more work and settles when what is under way has ended. */
  async close(): Promise<void> {
    this.#closed = true;
    if (this.#running === 0) return;
    await new Promise<void>((resolve) => {
      this.#idle = resolve;
    });
  }

  #next(): void {
    if (this.#closed || this.#running >= this.#options.lanes) return;
    const work = this.#queue.take() ?? this.#again.take();
    if (work === undefined) return;
    this.#running += 1;
    // A frame that fails in an unforeseen way stays as it was; the next one is not held up.
    this.#develop(work)
      .catch((thrown: unknown) => {
        if (!this.#closed) this.#options.trouble(thrown);
      })
      .finally(() => {
        this.#running -= 1;
        if (this.#running === 0) this.#idle();
        this.#next();
      });
    this.#next();
  }

  async #develop({ frame, only }: Work): Promise<void> {
    if (only === 'picture') return this.#renderAgain(frame);
    const looked = await this.#lookAt(frame);
    if (looked === null) return;
    const { row, file, path, facts } = looked;
    const { reader } = this.#options;
    if (only === 'all') {
      // Beside the developing, which takes longer.
      const along = cameAlong(row, file, facts.kind, this.#options.pathOf, reader);
      const picture = await this.#picture(row, file, path, facts);
      await this.#options.done(frame, { facts: withCameAlong(facts, await along), picture });
      if (picture.state !== 'rendered') return;
      await pause(judgeAfterMs);
    }
    const source = renderSource(file, path, facts.kind, plainly);
    if (source === null || this.#closed) return;
    const read = await this.#options.judge(frame, source, facts, false).catch(orUnreadable);
    if (read !== null) await this.#options.judged(frame, read);
  }

  /** The rendering may lie in the cache from before, as after an undo. */
  async #renderAgain(frame: string): Promise<void> {
    const row = await this.#options.load(frame);
    const file = row === null ? null : fileToShow(row);
    const shown = row === null ? null : pictureOfRow(row);
    if (row === null || file === null || shown?.state !== 'rendered') return;
    const by = this.#options.renderedBy(row);
    const source = renderSourceAs(file, this.#options.pathOf(file), shown.source, by);
    if (source === null) return;
    // Another look may cut the picture otherwise.
    const { width, height, original } = await this.#options.renderings.fullSize(source);
    if (this.#closed) return;
    const target = await this.#targetShape(source, by.balance);
    const { lookHash: look } = source;
    const version = shown.version + 1;
    await this.#options.doneAgain(frame, { ...shown, width, height, original, look, target, version });
  }

  async #targetShape(source: RenderSource, balance: BalancedOn | null): Promise<RenderedPicture['target']> {
    if (source.balance === null || balance === null) return null;
    const { frame, hash } = balance;
    return { frame, name: (await this.#options.load(frame))?.name ?? frame, profile: hash };
  }

  async #lookAt(frame: string): Promise<LookedAt | null> {
    const row = await this.#options.load(frame);
    const file = row === null ? null : fileToShow(row);
    if (row === null || file === null) return null;
    const path = this.#options.pathOf(file);
    const inspection = this.#options.lastLook(file) ?? (await inspectFile(path, file.sizeBytes));
    const { reader, zoneOffsetMinutes } = this.#options;
    const facts = await factsOfFile(path, inspection, reader, zoneOffsetMinutes());
    return { row, file, path, facts };
  }

  async #picture(row: FrameRow, file: FileRow, path: string, facts: FileFacts): Promise<FramePicture> {
    const version = pictureVersion(row) + 1;
    const by = this.#options.renderedBy(row);
    const source = renderSource(file, path, facts.kind, by);
    if (source === null) return cannotShow(notShownBecause(facts.kind, file.name), null, version);
    if (file.state === 'damaged') {
      return this.#cannot(file, path, { code: 'picture.not-whole', args: { name: file.name } }, version);
    }
    try {
      const size = fullSizeOf(await this.#options.renderings.makeBase(source, true), source.look);
      return {
        state: 'rendered',
        ...size,
        original: size.original === null ? null : { ...size.original },
        source: source.kind,
        look: source.lookHash,
        target: await this.#targetShape(source, by.balance),
        version,
      };
    } catch (thrown) {
      if (errorCode(thrown) === 'worker-pool-closed') throw thrown;
      const args = { name: file.name, why: errorCode(thrown) };
      const code = source.kind === 'raw' ? 'picture.cannot-develop' : 'picture.cannot-show';
      return this.#cannot(file, path, { code, args }, version);
    }
  }

  async #cannot(file: FileRow, path: string, reason: Finding, version: number): Promise<FramePicture> {
    return cannotShow(reason, await findPreview(path, file.sizeBytes), version);
  }
}

/** `preview`: the best one inside the file, or null. */
function cannotShow(reason: Finding, preview: CutPreview | null, version: number): FramePicture {
  return {
    state: 'cannot',
    reason: { code: reason.code, args: { ...reason.args } },
    preview: preview !== null,
    width: preview?.uprightWidthPx ?? null,
    height: preview?.uprightHeightPx ?? null,
    orientation: preview?.orientation ?? null,
    version,
  };
}

/** A frame's file, and what a look into it says. */
interface LookedAt {
  readonly row: FrameRow;
  readonly file: FileRow;
  readonly path: string;
  readonly facts: FileFacts;
}

type RenderedPicture = Extract<FramePicture, { readonly state: 'rendered' }>;

/** What is to be done for a frame. */
interface Work {
  readonly frame: string;
  readonly only: 'all' | 'readings' | 'picture';
}

/** A page that hears of the rendering asks for it in its own size: that comes first, readings can wait so long, ms. */
const judgeAfterMs = 150;

/** Some raws make a picture and have no samples that can be read: nothing is measured in them. */
function orUnreadable(thrown: unknown): null {
  if (errorCode(thrown) === 'raw-unsupported-mosaic') return null;
  throw thrown;
}
