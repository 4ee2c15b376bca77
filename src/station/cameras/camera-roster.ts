import { stat } from 'node:fs/promises';
import { cameraFile, changeCameras, newCamera, readCameras } from './camera-file.ts';
import type { Camera, CameraAccess } from './core/camera.ts';
import { noCamera, withAdded, withChanged } from './roster-changes.ts';

/** A command beside the station changes the file: that is seen after so long. */
const lookEveryMs = 1000;

/**
 * Who may come in, now: read at the start, changed here or by a command beside the station, without a restart. A file
 * that cannot be read leaves everything as it was.
 */
export class CameraRoster {
  readonly #keysFolder: string;
  #cameras: readonly Camera[];
  #seen = '';
  #timer: NodeJS.Timeout | null = null;
  readonly #listeners = new Set<(before: readonly Camera[], now: readonly Camera[]) => void>();

  private constructor(keysFolder: string, cameras: readonly Camera[]) {
    this.#keysFolder = keysFolder;
    this.#cameras = cameras;
  }

  /**
   * On the first start cameras are made: one that may come in by every door, and those of `watched`, which come by their
   * watched folders alone. `unreadable` hears of a file that somebody broke while the station runs. Rejects `bad-camera-name`.
   */
  static async open(
    keysFolder: string,
    unreadable: (thrown: unknown) => void,
    watched: readonly string[] = [],
  ): Promise<CameraRoster> {
    const known = await readCameras(keysFolder);
    const cameras =
      known.length > 0
        ? known
        : await changeCameras(keysFolder, (before) => (before.length > 0 ? before : firstCameras(watched)));
    const roster = new CameraRoster(keysFolder, cameras);
    roster.#seen = await roster.#stamp();
    roster.#timer = setInterval(() => void roster.#look().catch(unreadable), lookEveryMs);
    roster.#timer.unref();
    return roster;
  }

  /** Every camera there ever was, the ended ones too, in the order in which they were added. */
  all(): readonly Camera[] {
    return this.#cameras;
  }

  /** Those that may come in. */
  active(): readonly Camera[] {
    return this.#cameras.filter(({ ended }) => !ended);
  }

  find(name: string): Camera | null {
    return this.#cameras.find((camera) => camera.name === name) ?? null;
  }

  /** Hears of every change, with the cameras before and after it. */
  onChange(listener: (before: readonly Camera[], now: readonly Camera[]) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Rejects `bad-camera-name`, `camera-exists`, `too-many-cameras`, `bad-allow-rule`. */
  async add(name: string, access: CameraAccess = {}): Promise<Camera> {
    this.#take(await changeCameras(this.#keysFolder, (cameras) => withAdded(cameras, name, access)));
    return this.#must(name);
  }

  /** Rejects `no-camera`, `bad-allow-rule`. */
  async change(name: string, access: CameraAccess): Promise<Camera> {
    this.#take(await changeCameras(this.#keysFolder, (cameras) => withChanged(cameras, name, access)));
    return this.#must(name);
  }

  close(): void {
    if (this.#timer !== null) clearInterval(this.#timer);
    this.#listeners.clear();
  }

  async #look(): Promise<void> {
    const stamp = await this.#stamp();
    if (stamp === this.#seen) return;
    this.#seen = stamp;
    const cameras = await readCameras(this.#keysFolder);
    if (cameras.length > 0) this.#take(cameras);
  }

  async #stamp(): Promise<string> {
    const { mtimeMs, size, ino } = await stat(cameraFile(this.#keysFolder));
    return `${mtimeMs} ${size} ${ino}`;
  }

  #take(cameras: readonly Camera[]): void {
    const before = this.#cameras;
    this.#cameras = cameras;
    for (const listener of this.#listeners) listener(before, cameras);
  }

  #must(name: string): Camera {
    const camera = this.find(name);
    if (camera === null) throw noCamera(name, this.#cameras);
    return camera;
  }
}

function firstCameras(watched: readonly string[]): readonly Camera[] {
  const first = newCamera('cam1');
  return [...new Set(watched)]
    .filter((name) => name !== first.name)
    .reduce<readonly Camera[]>((cameras, name) => withAdded(cameras, name, { protocols: [] }), [first]);
}
