/** One camera's session: its plan, its counter, its bursts, its uploads. */
import { webcrypto } from 'node:crypto';
import { setTimeout as wait } from 'node:timers/promises';
import { type EpochMs, SetsideError } from '../base/index.ts';
import type { CameraBody } from './core/camera-body.ts';
import { dcfName } from './core/dcf-name.ts';
import { faultValue } from './core/faults.ts';
import { frameOrdinals } from './core/frame-ordinals.ts';
import { type FrameRecipe, planFrames } from './core/frame-plan.ts';
import type { FrameSize } from './core/frame-size.ts';
import { readCounter, writeCounter } from './counter.ts';
import { standInErrorCodes } from './errors.ts';
import { type ExposedFrame, exposeAhead, type FrameFile, frameFiles } from './frame.ts';
import { FtpCamera } from './ftp-camera.ts';
import type { StandInCode } from './progress.ts';
import type { SendingCamera, Upload } from './sending.ts';
import type { SentFile, SentFrame } from './sent-frame.ts';
import { SftpCamera } from './sftp-camera.ts';
import type { ResolvedStandInOptions } from './stand-in-options.ts';
import type { Studio } from './studio.ts';

/** Servers drop a control connection that is silent for some minutes (common practice, no source). */
const keepAliveMs = 15_000;
/** Seeds of two cameras lie so far apart that their frames do not meet. */
const seedStep = 7_654_321;

/** A frame of the plan with its place in the session and in the camera's life. */
interface PlannedFrame {
  readonly recipe: FrameRecipe;
  /** From 1. */
  readonly frame: number;
  readonly ordinal: number;
}

/** A frame whose shutter has fired. */
interface ShotFrame extends PlannedFrame {
  readonly exposed: ExposedFrame;
  readonly shutterMs: EpochMs;
  readonly files: readonly FrameFile[];
}

/** Settles with the camera's frames when the last is acknowledged or given up; rejects as `runStandIn` does. */
export async function runCamera(
  options: ResolvedStandInOptions,
  studio: Studio,
  size: FrameSize,
  body: CameraBody,
): Promise<SentFrame[]> {
  const account = options.accounts[(body.number - 1) % options.accounts.length];
  if (account === undefined) return [];
  const Camera = options.protocol === 'sftp' ? SftpCamera : FtpCamera;
  const camera = new Camera({ ...options, ...account });
  const stop = (): void => camera.close();
  options.signal.addEventListener('abort', stop, { once: true });
  try {
    await camera.connect();
    return await new CameraSession(options, studio, size, body, camera).run();
  } finally {
    options.signal.removeEventListener('abort', stop);
    camera.close();
  }
}

class CameraSession {
  readonly #options: ResolvedStandInOptions;
  readonly #studio: Studio;
  readonly #size: FrameSize;
  readonly #body: CameraBody;
  readonly #camera: SendingCamera;

  constructor(
    options: ResolvedStandInOptions,
    studio: Studio,
    size: FrameSize,
    body: CameraBody,
    camera: SendingCamera,
  ) {
    this.#options = options;
    this.#studio = studio;
    this.#size = size;
    this.#body = body;
    this.#camera = camera;
  }

  async run(): Promise<SentFrame[]> {
    const { intervalMs, now, beforeShot } = this.#options;
    const bursts = await this.#plan();
    const sent: SentFrame[] = [];
    let ahead = this.#expose(bursts[0]);
    let lastShutterMs = Number.NEGATIVE_INFINITY;
    for (const [index, burst] of bursts.entries()) {
      const exposed = await ahead;
      await this.#idle(lastShutterMs + intervalMs - now());
      const shot = burst[0]?.recipe.shot;
      if (shot !== undefined && shot !== bursts[index - 1]?.[0]?.recipe.shot) await beforeShot(shot);
      lastShutterMs = now();
      const shots = this.#fire(burst, exposed, lastShutterMs);
      ahead = this.#expose(bursts[index + 1]);
      for (const shot of shots) sent.push(await this.#deliver(await shot));
    }
    return sent;
  }

  async #plan(): Promise<PlannedFrame[][]> {
    const { firstOrdinal, cacheDir, seed, burst } = this.#options;
    const camera = this.#body.number;
    const next = firstOrdinal ?? (await readCounter(cacheDir, camera));
    const recipes = planFrames({
      ...this.#options,
      seed: seed + (camera - 1) * seedStep,
      faults: camera === 1 ? this.#options.faults : [],
      hold: camera === 1 ? this.#options.hold : [],
    });
    const ordinals = frameOrdinals(recipes, next);
    const frames = recipes.map((recipe, index) => {
      return { recipe, frame: index + 1, ordinal: ordinals[index] ?? next };
    });
    const bursts = Array.from({ length: Math.ceil(frames.length / burst) }, (_, index) => index * burst);
    return bursts.map((start) => frames.slice(start, start + burst));
  }

  /** One after the other, so that not all of a burst lie unpressed in memory. A failure is met when they are wanted. */
  #expose(burst: readonly PlannedFrame[] = []): Promise<ExposedFrame[]> {
    const exposing = async (): Promise<ExposedFrame[]> => {
      const exposed: ExposedFrame[] = [];
      for (const { recipe } of burst) {
        exposed.push(await exposeAhead(this.#studio, this.#size, recipe, this.#options.compression));
      }
      return exposed;
    };
    const ahead = exposing();
    ahead.catch(() => {});
    return ahead;
  }

  /** Fires the shutter for each frame of a burst, evenly within one second. */
  #fire(
    burst: readonly PlannedFrame[],
    exposed: readonly ExposedFrame[],
    startMs: EpochMs,
  ): Promise<ShotFrame>[] {
    const { signal } = this.#options;
    return exposed.flatMap((frame, index) => {
      const planned = burst[index];
      if (planned === undefined) return [];
      const afterMs = Math.round((index * 1000) / this.#options.burst);
      const shot = wait(afterMs, undefined, { signal }).then(() =>
        this.#shoot(planned, frame, startMs + afterMs),
      );
      shot.catch(() => {});
      return [shot];
    });
  }

  #shoot(planned: PlannedFrame, exposed: ExposedFrame, shutterMs: EpochMs): ShotFrame {
    const files = frameFiles(
      exposed,
      this.#body,
      shutterMs + clockAheadMs(planned.recipe),
      this.#options.files,
    );
    const { shot, purpose } = planned.recipe;
    const bytes = files.reduce((sum, file) => sum + file.bytes.length, 0);
    const name = this.#fileName(planned, files[0]);
    this.#options.onProgress({
      code: 'stand-in.shot',
      args: { name, files: files.length, bytes, shot, purpose },
    });
    return { ...planned, exposed, shutterMs, files };
  }

  async #deliver(shot: ShotFrame): Promise<SentFrame> {
    const { recipe, frame, ordinal, exposed, shutterMs } = shot;
    const files: SentFile[] = [];
    for (const file of shot.files) files.push(await this.#sendFile(shot, file));
    await writeCounter(this.#options.cacheDir, this.#body.number, ordinal + 1);
    const sent: SentFrame = {
      camera: this.#body.serial,
      frame,
      shutterMs,
      clockAheadMs: clockAheadMs(recipe),
      files,
      sent: files.every((file) => file.sent),
      faults: recipe.faults,
      truth: exposed.truth,
    };
    this.#options.onFrame(sent);
    return sent;
  }

  async #sendFile(shot: ShotFrame, file: FrameFile): Promise<SentFile> {
    const { folder } = dcfName(shot.ordinal, this.#body.prefix);
    const name = this.#fileName(shot, file);
    const { bytes, kind } = file;
    const { faults } = shot.recipe;
    const cutPercent = file === largest(shot.files) ? faultValue(faults, 'cut') : undefined;
    const upload = { folder, file: name, bytes };
    let sent = await this.#upload({
      ...upload,
      ...(cutPercent === undefined ? {} : { cutAt: cutPercent / 100 }),
    });
    if (faultValue(faults, 'duplicate') !== undefined) {
      sent = (await this.#upload(upload, 'stand-in.sent-again')) && sent;
    }
    return {
      kind,
      path: `${folder}/${name}`,
      name,
      sizeBytes: bytes.length,
      sha256: await sha256(bytes),
      sent,
    };
  }

  /** Whether it was acknowledged; only a frame given up is an answer, all else is thrown. */
  async #upload(upload: Upload, acknowledged: StandInCode = 'stand-in.sent'): Promise<boolean> {
    try {
      await this.#camera.send(upload);
    } catch (failure) {
      if (failure instanceof SetsideError && failure.code === standInErrorCodes.uploadFailed) return false;
      throw failure;
    }
    const args = { name: upload.file, bytes: upload.bytes.length };
    this.#options.onProgress({ code: acknowledged, args });
    return true;
  }

  #fileName({ ordinal }: PlannedFrame, file: FrameFile | undefined): string {
    return `${dcfName(ordinal, this.#body.prefix).stem}.${file?.extension ?? ''}`;
  }

  async #idle(ms: number): Promise<void> {
    for (let left = ms; left > 0; left -= keepAliveMs) {
      await wait(Math.min(left, keepAliveMs), undefined, { signal: this.#options.signal });
      if (left > keepAliveMs) await this.#camera.keepAlive();
    }
  }
}

/** The file that takes longest on the line, and so the one that a break hits. */
function largest(files: readonly FrameFile[]): FrameFile | undefined {
  return files.toSorted((a, b) => b.bytes.length - a.bytes.length)[0];
}

function clockAheadMs(recipe: FrameRecipe): number {
  return (faultValue(recipe.faults, 'clock') ?? 0) * 60_000;
}

/** On a thread of the platform's own, so that a station in the same process is not held up. */
async function sha256(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  return Buffer.from(await webcrypto.subtle.digest('SHA-256', bytes)).toString('hex');
}
