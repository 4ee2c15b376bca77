import type { EpochMs } from '../base/index.ts';
import type { ArrivalEvent, FrameEvent, FramePicture, StationEvent } from '../contract/index.ts';
import type { ExpectedFiles, Purpose } from '../facts/index.ts';
import { layoutSender } from '../job/index.ts';
import type { KeepEvent } from '../keep/index.ts';
import type { FileRow, FrameRow, SeenInPicture } from '../register/index.ts';
import { ArrivalWatch } from './arrival-watch.ts';
import type { ArrivalWatches } from './arrival-watches.ts';
import { ArrivingNotes, type ArrivingNotesOptions, type FileOfFrame } from './arriving-notes.ts';
import { arrivalOf } from './cameras/camera-clocks.ts';
import type { Developed } from './developing.ts';
import { nothingFound } from './frame-facts.ts';
import { FrameTeller } from './frame-teller.ts';
import { PartnerWaits } from './partner-waits.ts';
import type { ReadFrame } from './readings/frame-judging.ts';
import type { LightBook } from './readings/light-book.ts';
import { noteReadings, relightAll } from './readings/note-readings.ts';
import type { SlateWatch } from './slates/slate-watch.ts';

export interface FrameFlowOptions extends ArrivingNotesOptions {
  readonly watches: ArrivalWatches;
  readonly publish: (event: StationEvent) => void;
  readonly develop: (frame: string, atMs: EpochMs) => void;
  readonly lights: LightBook;
  /** Whether other frames are held against this one. */
  readonly isHeldAgainst: (frame: string) => boolean;
  readonly expects: (camera: string) => ExpectedFiles | null;
  readonly slates: Pick<SlateWatch, 'view' | 'picture' | 'timed'>;
  /** Where a file lies, absolute. */
  readonly pathOf: (file: FileRow) => string;
  /** What a frame is shown by once it is rendered, or cannot be; null where nothing can be shown. */
  readonly shownPicture: (row: FrameRow) => Promise<LookedAt | null>;
}

/** A picture on disk or at hand. */
export type LookedAt = { readonly path: string } | { readonly bytes: Uint8Array };

/**
 * Carries one frame from its first byte to the page: hears what `keep` tells, watches the arriving file, notes what is
 * found out, publishes each change. Steps run one after another, so that what is published is never older than what
 * was; heavy work is elsewhere and comes back as a step.
 */
export class FrameFlow {
  readonly #options: FrameFlowOptions;
  readonly #tell: FrameTeller;
  readonly #notes: ArrivingNotes;
  readonly #partners = new PartnerWaits((frame) => this.#tellFrame(frame, 'judged'));
  /** Frames of arrivals that turned out to be another picture than the one they were announced in. */
  readonly #moved = new Map<string, string>();
  #steps: Promise<void> = Promise.resolve();

  constructor(options: FrameFlowOptions) {
    this.#options = options;
    this.#tell = new FrameTeller(options.book, options.publish);
    this.#notes = new ArrivingNotes(options, {
      tell: this.#tell,
      step: (work) => this.#step(work),
      frameOf: ({ arrival, frame }) => this.#moved.get(arrival) ?? frame,
    });
  }

  /** One event of `keep`. Returns at once. */
  hear(event: KeepEvent): void {
    // A layout is no frame of the day: nobody watches it arrive, and no page lists it.
    if (event.camera === layoutSender) return;
    switch (event.type) {
      case 'started':
        this.#started(event);
        return;
      case 'progress':
        this.#options.book.live.progress(event.arrival, event.sizeBytes, event.atMs);
        this.#options.watches.grew(event.arrival, event.sizeBytes);
        this.#tellArrival(event.frame, 'progress');
        return;
      case 'kept':
        this.#partFrom(event.startedFrame, event);
        this.#ended(event, event.wholeness === 'whole' ? 'whole' : 'unproved');
        return;
      case 'damaged':
        this.#partFrom(event.startedFrame, event);
        this.#ended(event, 'damaged');
        return;
      case 'folded':
        this.#tellArrival(event.frame, 'broken-off');
        return;
      case 'broken-off':
        this.#endWatch(event.arrival);
        this.#tellArrival(event.frame, 'broken-off');
        return;
      case 'again':
        this.#endWatch(event.arrival);
        // The frame made for these bytes is void: whoever shows it has to load the list again.
        if (event.frame !== event.sameAs.frame)
          this.#step(async () => this.#options.publish({ type: 'resync' }));
        this.#tellFrame(event.sameAs.frame, 'kept');
        return;
      case 'made-good':
      case 'hidden':
        this.#step(async () => this.#options.publish({ type: 'resync' }));
        return;
      case 'let-go':
        this.#tellArrival(event.frame, 'let-go');
        this.#step(async () => this.#options.publish({ type: 'resync' }));
        return;
      case 'copied':
      case 'copy-lost':
        this.#step(() => this.#tell.copy(event.frame, event.type));
        return;
      case 'renamed':
        this.#tellFrame(event.frame, 'renamed');
        return;
    }
  }

  /** What developing found out about a kept frame. Settles when it is noted and told. */
  developed(frame: string, { facts, picture }: Developed): Promise<void> {
    return this.#step(async () => {
      const { book, now, views, clocks } = this.#options;
      const row = await book.row(frame);
      const rendered = picture.state === 'rendered';
      // Where there is no picture nobody has to look at it.
      const unseen = row?.seen === null && row.files.length === 1 && hasNothingToShow(picture);
      await book.note(frame, {
        kind: facts.kind,
        capture: facts.capture,
        shutterMs: row === null ? null : clocks.shutterMs(facts.capture, row.camera, arrivalOf(row, now())),
        picture,
        judgedMs: now(),
        ...(rendered ? { renderedMs: now() } : {}),
        ...(unseen ? { seen: nothingSeen } : {}),
      });
      // Where it was not rendered, the best view is cut out of the file anew, now that this is all there.
      views.drop(frame);
      await this.#tell.frame(frame, 'rendered');
      this.#options.slates.timed(frame);
      const after = await book.row(frame);
      if (after === null) return;
      // The frame that makes a bracket of them takes back what was said of the others' settings.
      for (const mate of await book.bracketMates(after)) await this.#tell.frame(mate, 'judged');
      if (after.seen !== null) return;
      const shown = await this.#options.shownPicture(after);
      if (shown !== null) this.#options.slates.picture(frame, shown);
      else await book.note(frame, { seen: nothingSeen });
    });
  }

  /** A frame was rendered again. It has been visible before: its times stay, and it was looked at already. */
  renderedAgain(frame: string, picture: FramePicture): Promise<void> {
    return this.#step(async () => {
      await this.#options.book.note(frame, { picture });
      await this.#tell.frame(frame, 'rendered');
    });
  }

  /** What was read in a frame's pixels. Settles when it is noted and told. */
  judged(frame: string, read: ReadFrame): Promise<void> {
    return this.#step(async () => {
      await noteReadings(this.#options, frame, read, (id) => this.#tell.frame(id, 'judged'));
      // What lies on a screen was judged by what this one was before: each page loads again what it shows.
      if (read.readings.exposed.source !== 'preview' && this.#options.isHeldAgainst(frame))
        this.#options.publish({ type: 'resync' });
    });
  }

  /** What a frame is taken for has changed: a card is no longer counted into the light, and the frames behind it hear of it. */
  intended(frame: string, purpose: Purpose): Promise<void> {
    return this.#step(() =>
      relightAll(this.#options, this.#options.lights.intended(frame, purpose), (id) =>
        this.#tell.frame(id, 'judged'),
      ),
    );
  }

  /** A frame of which nothing is kept: looks into its broken-off file once, as it would have been while it arrived. */
  async lookInto(row: FrameRow): Promise<void> {
    const file = row.files.find(({ state }) => state === 'broken-off');
    if (file === undefined || file.sizeBytes === 0) return;
    const { arrival, name, sizeBytes } = file;
    const of = { frame: row.id, arrival, camera: row.camera, name };
    const watch = new ArrivalWatch(this.#options.pathOf(file), this.#notes.of(of));
    // A file that cannot be read shows nothing; it is listed all the same.
    await watch.ended(sizeBytes).catch(() => {});
    await watch.close();
    await this.#steps;
  }

  /** A change that people made. Settles when it is told. */
  changed(frame: string, change: FrameEvent['change']): Promise<void> {
    return this.#step(() => this.#tell.frame(frame, change));
  }

  /** The same of many frames, some at a time: what cameras send meanwhile is told between them. */
  async changedAll(frames: readonly string[], change: FrameEvent['change']): Promise<void> {
    for (let from = 0; from < frames.length; from += toldAtOnce)
      await this.#step(() => this.#tell.frames(frames.slice(from, from + toldAtOnce), change));
  }

  /** Ends every watch; settles when the steps so far are done. */
  async close(): Promise<void> {
    this.#partners.close();
    await this.#options.watches.close();
    await this.#steps;
  }

  #started(event: KeepEvent): void {
    const { book, watches } = this.#options;
    book.live.started(event.arrival, event.sizeBytes, event.announcedBytes, event.atMs);
    watches.begin(event.arrival, event.diskPath, event.sizeBytes, this.#notes.of(event));
    this.#tellArrival(event.frame, 'started');
  }

  /** A file that is another picture leaves the frame it was told in, which shows its own again. */
  #partFrom(frame: string, event: FileOfFrame): void {
    if (frame === event.frame) return;
    this.#moved.set(event.arrival, event.frame);
    const { book, views, publish, develop } = this.#options;
    const parted = this.#step(async () => {
      views.drop(frame);
      const row = await book.row(frame);
      if (row !== null) await book.note(frame, nothingFound);
      publish({ type: 'resync' });
      return row;
    });
    parted
      .then(async (row) => {
        if (row === null) return;
        if (row.times.keptMs === null) await this.lookInto(row);
        else develop(frame, row.orderMs);
      })
      // Where the register refuses, the next start looks again.
      .catch(() => {});
  }

  #ended(event: KeepEvent, change: 'whole' | 'unproved' | 'damaged'): void {
    this.#endWatch(event.arrival);
    this.#tellArrival(event.frame, change);
    this.#tellFrame(event.frame, 'kept');
    // Where two files are expected the frame is judged again when the second has had its time.
    if (this.#options.expects(event.camera) === 'both') this.#partners.add(event.frame);
    void this.#step(async () => {
      const row = await this.#options.book.row(event.frame);
      this.#options.develop(event.frame, row?.orderMs ?? event.atMs);
    });
  }

  #endWatch(arrival: string): void {
    this.#options.book.live.ended(arrival);
    void this.#options.watches.end(arrival);
  }

  #tellArrival(frame: string, change: ArrivalEvent['change']): void {
    void this.#step(() => this.#tell.arrival(frame, change));
  }

  #tellFrame(frame: string, change: FrameEvent['change']): void {
    void this.#step(() => this.#tell.frame(frame, change));
  }

  /** A step that fails leaves the later ones unharmed; whoever awaits it hears of it. */
  #step<Result>(work: () => Promise<Result>): Promise<Result> {
    const done = this.#steps.then(work);
    this.#steps = done.then(
      () => {},
      () => {},
    );
    return done;
  }
}

/** A twentieth of a second's work. */
const toldAtOnce = 50;

const nothingSeen: SeenInPicture = { finding: null, greyCard: false };

function hasNothingToShow(picture: FramePicture): boolean {
  return picture.state === 'cannot' && !picture.preview;
}
