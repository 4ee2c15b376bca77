import type { ArrivalEvent, CopyEvent, FrameEvent, StationEvent } from '../contract/index.ts';
import type { FrameBook } from './frame-book.ts';

/** Publishes what became of a frame, with the frame as it is now. A frame that shows nothing is not told. */
export class FrameTeller {
  readonly #book: Pick<FrameBook, 'frame' | 'framesNamed'>;
  readonly #publish: (event: StationEvent) => void;

  constructor(book: Pick<FrameBook, 'frame' | 'framesNamed'>, publish: (event: StationEvent) => void) {
    this.#book = book;
    this.#publish = publish;
  }

  async arrival(id: string, change: ArrivalEvent['change']): Promise<void> {
    const frame = await this.#book.frame(id);
    if (frame !== null) this.#publish({ type: 'arrival', change, frame });
  }

  async frame(id: string, change: FrameEvent['change']): Promise<void> {
    const frame = await this.#book.frame(id);
    if (frame !== null) this.#publish({ type: 'frame', change, frame });
  }

  /** The same of many. */
  async frames(ids: readonly string[], change: FrameEvent['change']): Promise<void> {
    for await (const frame of this.#book.framesNamed(ids)) this.#publish({ type: 'frame', change, frame });
  }

  async copy(id: string, change: CopyEvent['change']): Promise<void> {
    const frame = await this.#book.frame(id);
    if (frame !== null) this.#publish({ type: 'copy', change, frame });
  }
}
