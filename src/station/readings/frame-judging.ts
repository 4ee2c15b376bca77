import type { CaptureFacts, FrameReadings, ShareBox, TargetEdition } from '../../facts/index.ts';
import type { ReadingWishes } from '../../judge/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { DevelopPool, PreviewPixels } from '../../workers/index.ts';
import type { FileFacts } from '../frame-facts.ts';
import type { RenderSource } from '../renderings.ts';
import { type FrameLimits, noLimits } from './frame-limits.ts';
import type { ReferencePlanes } from './reference-planes.ts';
import { wishesOf } from './wishes.ts';

/** What was read of a frame, and what its place was held against. */
export interface ReadFrame {
  readonly readings: FrameReadings;
  readonly held: string | null;
}

export interface FrameJudgingOptions {
  readonly pool: Pick<DevelopPool, 'judge'>;
  readonly planes: Pick<ReferencePlanes, 'of'>;
  readonly row: (frame: string) => Promise<FrameRow | null>;
  readonly limits: (row: FrameRow) => FrameLimits;
  /** Where a person pointed for it, or null. */
  readonly spot: (row: FrameRow) => Promise<ShareBox | null>;
}

/** Has a frame's pixels read for what its job and shot ask of it at that moment. */
export class FrameJudging {
  readonly #options: FrameJudgingOptions;

  constructor(options: FrameJudgingOptions) {
    this.#options = options;
  }

  /** Of its file. `asTarget`: a target is looked for whatever the frame was taken for. Rejects as `DevelopPool.judge`. */
  async read(
    frame: string,
    { path, kind }: RenderSource,
    { capture }: FileFacts,
    asTarget: boolean,
  ): Promise<ReadFrame> {
    return this.#read(frame, capture, (wishes, edition) => {
      const target = wishes.target ?? (asTarget ? { edition } : null);
      return this.#options.pool.judge({ path, kind, wishes: { ...wishes, target } });
    });
  }

  /** Of a preview that was cut out of its file, while that arrives. No target is looked for: a preview proves no colour. */
  async readPreview(frame: string, capture: CaptureFacts, preview: PreviewPixels): Promise<ReadFrame> {
    return this.#read(frame, capture, (wishes) =>
      this.#options.pool.judge({
        path: `preview of ${frame}`,
        kind: 'preview',
        wishes: { ...wishes, target: null },
        preview,
      }),
    );
  }

  async #read(
    frame: string,
    capture: CaptureFacts,
    judge: (
      wishes: ReadingWishes,
      edition: TargetEdition | null,
    ) => Promise<{ readonly readings: FrameReadings }>,
  ): Promise<ReadFrame> {
    const row = await this.#options.row(frame);
    const { place, target, edition } = row === null ? noLimits : this.#options.limits(row);
    const pointedOut = row === null ? null : await this.#options.spot(row);
    const plane = place === null ? null : await this.#options.planes.of(place.frame);
    const reference = plane === null ? null : { plane, region: null };
    const { readings } = await judge({ ...wishesOf(capture, pointedOut), reference, target }, edition);
    if (place === null) return { readings, held: null };
    return {
      readings: plane === null ? withoutReference(readings) : readings,
      held: place.frame,
    };
  }
}

function withoutReference(readings: FrameReadings): FrameReadings {
  return { ...readings, place: { ...readings.place, shift: { unknown: 'reference-unread' } } };
}
