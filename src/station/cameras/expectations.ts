import type { ExpectedFiles } from '../../facts/index.ts';

/** What each camera is set to send of every frame, as far as anybody has said. */
export class Expectations {
  readonly #byCamera = new Map<string, ExpectedFiles | null>();

  of(camera: string): ExpectedFiles | null {
    return this.#byCamera.get(camera) ?? null;
  }

  set(camera: string, expects: ExpectedFiles | null): void {
    this.#byCamera.set(camera, expects);
  }
}
