import type { EpochMs } from '../../base/index.ts';
import type { ExpectedFiles } from '../../facts/index.ts';

interface Said {
  readonly expects: ExpectedFiles | null;
  readonly saidMs: EpochMs;
}

/** What each camera is set to send of every frame, as far as anybody has said. */
export class Expectations {
  readonly #byCamera = new Map<string, Said>();

  /** From now on. */
  of(camera: string): ExpectedFiles | null {
    return this.#byCamera.get(camera)?.expects ?? null;
  }

  /** Of a frame that was kept then: what is said today does not make yesterday's frames incomplete. */
  at(camera: string, keptMs: EpochMs): ExpectedFiles | null {
    const said = this.#byCamera.get(camera);
    return said !== undefined && said.saidMs <= keptMs ? said.expects : null;
  }

  set(camera: string, expects: ExpectedFiles | null, saidMs: EpochMs): void {
    this.#byCamera.set(camera, { expects, saidMs });
  }
}
