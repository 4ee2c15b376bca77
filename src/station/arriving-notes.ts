import type { EpochMs } from '../base/index.ts';
import type { CaptureFacts } from '../facts/index.ts';
import type { Inspection } from '../formats/index.ts';
import type { KeepEvent } from '../keep/index.ts';
import type { FrameRow } from '../register/index.ts';
import type { WatchListener } from './arrival-watch.ts';
import { arrivalOf, type CameraClocks } from './cameras/camera-clocks.ts';
import { type CutPreview, isBetterView, rankOfView } from './core/first-view.ts';
import { firstViewPicture, shareOf } from './first-view-picture.ts';
import type { FirstViews } from './first-views.ts';
import type { FrameBook } from './frame-book.ts';
import { type FileFacts, factsOfInspection } from './frame-facts.ts';
import type { FrameTeller } from './frame-teller.ts';
import type { SlateWatch } from './slates/slate-watch.ts';

export interface ArrivingNotesOptions {
  readonly book: FrameBook;
  readonly views: FirstViews;
  /** Reads what a preview says, while its file arrives. */
  readonly judgePreview: (frame: string, preview: CutPreview, capture: CaptureFacts) => void;
  readonly now: () => EpochMs;
  readonly zoneOffsetMinutes: () => number;
  readonly clocks: CameraClocks;
  readonly slates: Pick<SlateWatch, 'view' | 'timed'>;
}

/** Which file of which frame. */
export type FileOfFrame = Pick<KeepEvent, 'frame' | 'arrival' | 'camera' | 'name'>;

/** What notes need of the flow they are part of. */
export interface FlowOfNotes {
  readonly tell: FrameTeller;
  readonly step: (work: () => Promise<void>) => Promise<void>;
  /** The frame a file belongs to by now. */
  readonly frameOf: (file: FileOfFrame) => string;
}

/** Notes what is seen in a file that is not all here: what its structure says, and its previews. */
export class ArrivingNotes {
  readonly #options: ArrivingNotesOptions;
  readonly #flow: FlowOfNotes;

  constructor(options: ArrivingNotesOptions, flow: FlowOfNotes) {
    this.#options = options;
    this.#flow = flow;
  }

  /** For the watch of a file. */
  of(file: FileOfFrame): WatchListener {
    return {
      inspected: (inspection) => this.#inspected(file, inspection),
      preview: (preview) => this.#preview(file, preview),
    };
  }

  #inspected(event: FileOfFrame, inspection: Inspection): void {
    const { book, zoneOffsetMinutes, clocks, now } = this.#options;
    book.live.announced(event.arrival, inspection.expectedBytes);
    if (inspection.kind === 'empty') return;
    const facts = factsOfInspection(inspection, zoneOffsetMinutes());
    void this.#flow.step(async () => {
      const frame = this.#flow.frameOf(event);
      const row = await book.row(frame);
      const arrivedMs = row === null ? now() : arrivalOf(row, now());
      const shutterMs = clocks.shutterMs(facts.capture, event.camera, arrivedMs);
      if (row !== null && isNoted(row, facts, shutterMs)) return;
      await book.note(frame, {
        kind: facts.kind,
        capture: facts.capture,
        ...(shutterMs === null ? {} : { shutterMs }),
      });
      if (shutterMs !== null) this.#options.slates.timed(frame);
    });
  }

  #preview(event: FileOfFrame, preview: CutPreview): void {
    const { book, views, now } = this.#options;
    const live = book.live.get(event.arrival);
    void this.#flow.step(async () => {
      const frame = this.#flow.frameOf(event);
      const row = await book.row(frame);
      // A frame whose picture is there already (its JPEG came first, say) is not set back to a preview.
      if (row === null || row.picture?.state === 'rendered') return;
      // Of a frame's two files the one that comes second may bring less than the first did.
      const shown = views.get(frame);
      if (shown !== null && !isBetterView(rankOfView(preview), rankOfView(shown))) return;
      views.set(frame, preview);
      const picture = firstViewPicture(row, preview, shareOf(live));
      const firstViewMs = row.times.firstViewMs ?? now();
      await book.note(frame, { picture, firstViewMs });
      this.#options.judgePreview(frame, preview, row.capture ?? {});
      await this.#flow.tell.arrival(frame, 'first-view');
      const longEdgePx = Math.max(preview.widthPx, preview.heightPx);
      this.#options.slates.view(frame, { ...preview, longEdgePx });
    });
  }
}

/** Most looks at a growing file say of its capture what the first one did. */
function isNoted(row: FrameRow, { kind, capture }: FileFacts, shutterMs: EpochMs | null): boolean {
  return (
    row.kind === kind &&
    (shutterMs === null || row.shutterMs === shutterMs) &&
    JSON.stringify(row.capture) === JSON.stringify(capture)
  );
}
