import type { EpochMs } from '../base/index.ts';
import type { CameraEntry, CameraPatch } from '../contract/index.ts';
import type { Finding } from '../facts/index.ts';
import type { Keep, KeepEvent } from '../keep/index.ts';
import type { Register } from '../register/index.ts';
import type { CameraLog } from './camera-log.ts';
import type { Camera } from './cameras.ts';
import { silentSinceMs } from './core/silence.ts';
import type { Expectations } from './expectations.ts';
import { momentOrNull } from './frame-shape.ts';

export interface CameraBookOptions {
  readonly cameras: readonly Camera[];
  readonly log: CameraLog;
  readonly keep: Keep;
  readonly register: Register;
  readonly silentAfterMs: number;
  /** What each camera is set to send; filled here and kept in step. */
  readonly expectations: Expectations;
  readonly now: () => EpochMs;
}

/** The cameras: who they are, what people said of them, how they are doing. */
export class CameraBook {
  readonly #options: CameraBookOptions;
  readonly #lastFrameMs = new Map<string, EpochMs>();
  readonly #quietMs = new Map<string, EpochMs>();

  private constructor(options: CameraBookOptions) {
    this.#options = options;
  }

  static async load(options: CameraBookOptions): Promise<CameraBook> {
    const book = new CameraBook(options);
    for (const { name, expects } of await options.register.cameras()) options.expectations.set(name, expects);
    return book;
  }

  /** What `keep` tells: a frame is the surest sign of life. */
  hear(event: KeepEvent): void {
    if (event.type === 'kept') this.#lastFrameMs.set(event.camera, event.atMs);
  }

  /** Whether any camera is at work: connected, or a frame of it came within `withinMs`. */
  busy(withinMs: number): boolean {
    const { cameras, log, now } = this.#options;
    return cameras.some(
      ({ name }) =>
        log.connected(name) || now() - (this.#lastFrameMs.get(name) ?? Number.NEGATIVE_INFINITY) < withinMs,
    );
  }

  /** As the contract tells them; passwords for the operator only. */
  entries(asOperator: boolean): CameraEntry[] {
    return this.#options.cameras.map((camera) => this.#entry(camera, asOperator));
  }

  /** Journals what changed; null where there is no such camera. */
  async change(name: string, patch: CameraPatch): Promise<CameraEntry | null> {
    const camera = this.#options.cameras.find((entry) => entry.name === name);
    if (camera === undefined) return null;
    if (patch.expects !== undefined) {
      await this.#options.keep.append({ type: 'camera-set', camera: name, expects: patch.expects });
      this.#options.expectations.set(name, patch.expects);
    }
    // Of the moment: nobody wants to hear tomorrow that it was not shooting today.
    if (patch.quiet === true) this.#quietMs.set(name, this.#options.now());
    return this.#entry(camera, true);
  }

  #entry({ name, user, password }: Camera, asOperator: boolean): CameraEntry {
    const { log, expectations } = this.#options;
    return {
      name,
      user,
      password: asOperator ? password : null,
      connected: log.connected(name),
      lastSeen: momentOrNull(log.lastSeenMs(name)),
      expects: expectations.of(name),
      trouble: this.#silence(name),
      log: log.entries(name).map(({ atMs, finding }) => ({
        at: momentOrNull(atMs) ?? '',
        finding: { code: finding.code, args: { ...finding.args } },
      })),
    };
  }

  #silence(camera: string): CameraEntry['trouble'] {
    const { log, silentAfterMs, now } = this.#options;
    const nowMs = now();
    const sinceMs = silentSinceMs({
      lastFrameMs: this.#lastFrameMs.get(camera) ?? null,
      lastSeenMs: log.lastSeenMs(camera),
      connected: log.connected(camera),
      quietMs: this.#quietMs.get(camera) ?? null,
      silentAfterMs,
      nowMs,
    });
    if (sinceMs === null) return null;
    const finding: Finding = {
      code: 'line.camera-silent',
      args: { camera, minutes: Math.floor((nowMs - sinceMs) / 60_000) },
    };
    return { code: finding.code, args: { ...finding.args } };
  }
}
