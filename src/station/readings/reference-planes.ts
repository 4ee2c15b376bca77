import { errorCode } from '../../base/index.ts';
import { type PlacePlane, planeEdition } from '../../judge/index.ts';
import type { DevelopPool } from '../../workers/index.ts';
import type { RenderSource } from '../renderings.ts';

/** References that are held at a time, 3 MB each: those of the shots one goes to and fro between. */
const planesMax = 6;

export interface ReferencePlanesOptions {
  readonly pool: Pick<DevelopPool, 'place'>;
  /** The file that a frame or layout picture is shown by; null where there is none, or none that is a picture. */
  readonly source: (frame: string) => Promise<RenderSource | null>;
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
    const source = await this.#options.source(frame);
    if (source === null) return null;
    const key = `${source.sha256} ${planeEdition}`;
    const known = this.#held.get(key);
    const plane = known ?? this.#made(source);
    this.#held.delete(key);
    this.#held.set(key, plane);
    // One that failed because the station ends is asked for again by the next.
    plane.catch(() => this.#held.delete(key));
    const [oldest] = this.#held.keys();
    if (this.#held.size > planesMax && oldest !== undefined) this.#held.delete(oldest);
    return plane;
  }

  async #made({ path, kind }: RenderSource): Promise<PlacePlane | null> {
    try {
      return (await this.#options.pool.place({ path, kind })).plane;
    } catch (thrown) {
      if (errorCode(thrown) === 'worker-pool-closed') throw thrown;
      return null;
    }
  }
}
