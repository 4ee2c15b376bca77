import { resolve } from 'node:path';
import { type EpochMs, epochMsToRfc3339 } from '../../base/index.ts';
import type { CameraEntry, CameraPatch, NewCamera } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { Keep, KeepEvent } from '../../keep/index.ts';
import type { Register } from '../../register/index.ts';
import type { WatchWish } from '../core/options.ts';
import { momentOrNull } from '../frame-shape.ts';
import type { ClockReadings } from '../slates/clock-readings.ts';
import type { CameraClocks } from './camera-clocks.ts';
import type { CameraLog } from './camera-log.ts';
import type { CameraRoster } from './camera-roster.ts';
import type { Camera, CameraAccess } from './core/camera.ts';
import { silentSinceMs } from './core/silence.ts';
import type { Expectations } from './expectations.ts';
import { cameraKeyOf } from './public-key.ts';

export interface CameraBookOptions {
  readonly roster: CameraRoster;
  readonly log: CameraLog;
  readonly keep: Keep;
  readonly register: Register;
  readonly silentAfterMs: number;
  /** What each camera is set to send; filled here and kept in step. */
  readonly expectations: Expectations;
  readonly clocks: CameraClocks;
  readonly clockReadings: ClockReadings;
  /** Folders that are watched for cameras. */
  readonly watches: readonly WatchWish[];
  /** That a camera was given an address that this computer does not have now; null where all is well. */
  readonly changedAddress: (camera: string) => Finding | null;
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
    for (const { name, expects, saidMs, clocks } of await options.register.cameras()) {
      if (saidMs !== null) options.expectations.set(name, expects, saidMs);
      options.clocks.load(name, clocks);
    }
    return book;
  }

  /** What `keep` tells: a frame is the surest sign of life. */
  hear(event: KeepEvent): void {
    if (event.type === 'kept') this.#lastFrameMs.set(event.camera, event.atMs);
  }

  /** Whether any camera is at work: connected, or a frame of it came within `withinMs`. */
  busy(withinMs: number): boolean {
    const { roster, log, now } = this.#options;
    return roster
      .active()
      .some(
        ({ name }) =>
          log.connected(name) || now() - (this.#lastFrameMs.get(name) ?? Number.NEGATIVE_INFINITY) < withinMs,
      );
  }

  /** As the contract tells them; passwords for the operator only. */
  entries(asOperator: boolean): CameraEntry[] {
    return this.#options.roster.all().map((camera) => this.#entry(camera, asOperator));
  }

  /** A camera that may come in from now on. Rejects as {@link CameraRoster.add} does. */
  async add({ name, ...access }: NewCamera): Promise<CameraEntry> {
    return this.#entry(await this.#options.roster.add(name, accessOf(access)), true);
  }

  /** Changes what people say of a camera, durably; null where there is no such camera. */
  async change(name: string, patch: CameraPatch): Promise<CameraEntry | null> {
    const { expects, clock, quiet, ...access } = patch;
    const known = this.#options.roster.find(name);
    if (known === null) return null;
    const camera =
      Object.keys(access).length === 0 ? known : await this.#options.roster.change(name, accessOf(access));
    // Said again, it is no news: frames since it was first said are still judged by it.
    if (expects !== undefined && expects !== this.#options.expectations.of(name)) {
      const { atMs } = await this.#options.keep.append({ type: 'camera-set', camera: name, expects });
      this.#options.expectations.set(name, expects, atMs);
    }
    if (clock !== undefined) await this.#setClock(name, clock);
    // Of the moment: nobody wants to hear tomorrow that it was not shooting today.
    if (quiet === true) this.#quietMs.set(name, this.#options.now());
    return this.#entry(camera, true);
  }

  async #setClock(camera: string, { offsetMs, since }: NonNullable<CameraPatch['clock']>): Promise<void> {
    const { keep, clocks, now } = this.#options;
    const said = { offsetMs, sinceMs: since === 'always' ? null : now() };
    await keep.append({ type: 'camera-clock-set', camera, ...said });
    clocks.said(camera, said);
  }

  #entry(
    { name, user, password, allow, protocols, keys, rowTimeUs, ended }: Camera,
    asOperator: boolean,
  ): CameraEntry {
    const { log, expectations, clocks, watches, now } = this.#options;
    return {
      name,
      user,
      password: asOperator ? password : null,
      allow: [...allow],
      protocols: [...protocols],
      keys: keys.map(cameraKeyOf),
      rowTimeUs,
      watched: watches.filter(({ camera }) => camera === name).map(({ folder }) => resolve(folder)),
      ended,
      connected: log.connected(name),
      lastSeen: momentOrNull(log.lastSeenMs(name)),
      expects: expectations.of(name),
      clockOffsetMs: clocks.offsetMs(name, now()),
      clockSeen: this.#clockSeen(name),
      trouble: ended ? null : (this.#changedAddress(name) ?? this.#notTaken(name) ?? this.#silence(name)),
      log: log.entries(name).map(({ atMs, finding, camera }) => ({
        at: momentOrNull(atMs) ?? '',
        camera,
        finding: { code: finding.code, args: { ...finding.args } },
      })),
    };
  }

  #clockSeen(camera: string): CameraEntry['clockSeen'] {
    const seen = this.#options.clockReadings.get(camera);
    if (seen === null) return null;
    const { offsetMs, plusMinusMs, frame, atMs } = seen;
    return { offsetMs, plusMinusMs, frame, at: epochMsToRfc3339(atMs) };
  }

  #changedAddress(camera: string): CameraEntry['trouble'] {
    const finding = this.#options.changedAddress(camera);
    return finding === null ? null : { code: finding.code, args: { ...finding.args } };
  }

  #notTaken(camera: string): CameraEntry['trouble'] {
    const finding = this.#options.log.notTaken(camera);
    return finding === null ? null : { code: finding.code, args: { ...finding.args } };
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

/** The contract's words for the roster's; what is left out stays as it is. */
function accessOf({
  allow,
  protocols,
  addKeys,
  dropKeys,
  rowTimeUs,
  ended,
  newPassword,
}: Omit<CameraPatch, 'expects' | 'clock' | 'quiet'>): CameraAccess {
  return {
    ...(allow === undefined ? {} : { allow }),
    ...(protocols === undefined ? {} : { protocols }),
    ...(addKeys === undefined ? {} : { addKeys }),
    ...(dropKeys === undefined ? {} : { dropKeys }),
    ...(rowTimeUs === undefined ? {} : { rowTimeUs }),
    ...(ended === undefined ? {} : { ended }),
    ...(newPassword === undefined ? {} : { newPassword }),
  };
}
