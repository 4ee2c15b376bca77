import { errorCode } from '../../base/index.ts';
import { type PlacePlane, planeEdition } from '../../judge/index.ts';
import type { FileRow, FrameRow } from '../../register/index.ts';
import type { DevelopPool } from '../../workers/index.ts';
import { inspectFile } from '../arrival-watch.ts';
import { fileToShow, renderSource } from '../developing.ts';

/** References that are held at a time, 3 MB each: those of the shots one goes to and fro between. */
const planesMax = 6;

export interface ReferencePlanesOptions {
  readonly pool: Pick<DevelopPool, 'place'>;
  readonly row: (frame: string) => Promise<FrameRow | null>;
  /** Where a file of the register lies, absolute. */
  readonly pathOf: (file: FileRow) => string;
}

/** What frames are laid on: made from the reference's file once, and held while it is asked for. */
export class ReferencePlanes {
  readonly #options: ReferencePlanesOptions;
  readonly #held = new Map<string, Promise<PlacePlane | null>>();

  constructor(options: ReferencePlanesOptions) {
    this.#options = options;
  }

  /** Of a frame or layout picture; null where its file is not here or cannot be read. Rejects once the pool is closed. */
  async of(frame: string): Promise<PlacePlane | null> {
    const row = await this.#options.row(frame);
    const file = row === null ? null : fileToShow(row);
    if (file === null || file.sha256 === null) return null;
    const key = `${file.sha256} ${planeEdition}`;
    const known = this.#held.get(key);
    const plane = known ?? this.#made(file);
    this.#held.delete(key);
    this.#held.set(key, plane);
    // One that failed because the station ends is asked for again by the next.
    plane.catch(() => this.#held.delete(key));
    const [oldest] = this.#held.keys();
    if (this.#held.size > planesMax && oldest !== undefined) this.#held.delete(oldest);
    return plane;
  }

  async #made(file: FileRow): Promise<PlacePlane | null> {
    const path = this.#options.pathOf(file);
    try {
      const { kind } = await inspectFile(path, file.sizeBytes);
      const source = renderSource(file, path, kind);
      if (source === null) return null;
      return (await this.#options.pool.place({ path, kind: source.kind })).plane;
    } catch (thrown) {
      if (errorCode(thrown) === 'worker-pool-closed') throw thrown;
      return null;
    }
  }
}
