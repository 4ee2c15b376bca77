/** A session with the pretend camera: shoot the plan, send each frame while the next is being rendered. */
import { setTimeout as wait } from 'node:timers/promises';
import { type EpochMs, SetsideError } from '../base/index.ts';
import { dcfName } from './core/dcf-name.ts';
import { type FaultOrder, faultValue } from './core/faults.ts';
import { type FrameRecipe, planFrames, type ShotName, shotNames } from './core/frame-plan.ts';
import { type FrameSize, frameSize } from './core/frame-size.ts';
import type { FrameTruth } from './core/frame-truth.ts';
import { readCounter, writeCounter } from './counter.ts';
import { standInErrorCodes } from './errors.ts';
import { type Frame, shootFrame } from './frame.ts';
import { FtpCamera } from './ftp-camera.ts';
import type { OnProgress } from './progress.ts';
import { createRenderCrew } from './render-crew.ts';
import { createRenderingStore } from './rendering-store.ts';
import { Studio } from './studio.ts';

export interface StandInOptions {
  /** Where the station's FTP door is. */
  readonly host: string;
  readonly port: number;
  readonly user: string;
  readonly password: string;
  /** Bytes per second; Infinity for as fast as the line takes it. 4,000,000 is a fair Wi-Fi. */
  readonly paceBytesPerSecond: number;
  /** Frames in all, shared out over the shots; 1 to 100,000. */
  readonly frames: number;
  /** From one shutter to the next, at least; a frame that is not yet sent or rendered makes it longer. */
  readonly intervalMs: number;
  /** Renderings and the camera's counter are kept here; made where it does not exist. */
  readonly cacheDir: string;
  /** 32 bits; the same seed shoots the same frames. */
  readonly seed: number;
  /** 0.05 to 24; 6 gives 3000 x 2000. */
  readonly sizeMegapixels: number;
  /** The camera's clock. */
  readonly now: () => EpochMs;
  readonly signal: AbortSignal;
  readonly onProgress: OnProgress;
  /** Default: the whole shot list. */
  readonly shots?: readonly ShotName[];
  /** Ordinal of the first frame; default: where the counter in `cacheDir` stands. */
  readonly firstOrdinal?: number;
  /** How often a broken upload is taken up again; default 3. */
  readonly retries?: number;
  /** What goes wrong on purpose; frames count from 1. Default: nothing. */
  readonly faults?: readonly FaultOrder[];
  /** Render threads; default one per processor up to 4, 0 renders on this thread. */
  readonly threads?: number;
}

export interface SentFrame {
  /** `/DCIM/100SETSD/QMST0001.DNG` */
  readonly path: string;
  readonly sizeBytes: number;
  readonly shutterMs: EpochMs;
  /** Whether the station acknowledged it. */
  readonly sent: boolean;
  readonly truth: FrameTruth;
}

export interface StandInSummary {
  readonly frames: readonly SentFrame[];
  /** Ordinal the next session begins with. */
  readonly nextOrdinal: number;
}

export const defaultPaceBytesPerSecond = 4_000_000;
export const defaultSizeMegapixels = 6;
const defaultRetries = 3;
/** Servers drop a control connection that is silent for some minutes (common practice, no source). */
const keepAliveMs = 15_000;

/**
 * Shoots and sends the planned frames. Settles when the last is acknowledged or given up (`sent: false`). Rejects
 * `stand-in-unreachable` or `stand-in-refused` where no connection can be made, `stand-in-wrong-option`, or with the
 * signal's reason, promptly.
 */
export async function runStandIn(options: StandInOptions): Promise<StandInSummary> {
  checkOptions(options);
  const size = frameSize(options.sizeMegapixels);
  const crew = createRenderCrew(options.threads);
  const studio = new Studio({ ...options, crew, size, store: createRenderingStore(options.cacheDir) });
  const camera = new FtpCamera({ ...options, retries: options.retries ?? defaultRetries });
  const stop = (): void => {
    camera.close();
    void crew.close();
  };
  options.signal.addEventListener('abort', stop, { once: true });
  try {
    await camera.connect();
    return await shootPlan(options, studio, camera, size);
  } catch (failure) {
    options.signal.throwIfAborted();
    throw failure;
  } finally {
    options.signal.removeEventListener('abort', stop);
    camera.close();
    await crew.close();
  }
}

async function shootPlan(
  options: StandInOptions,
  studio: Studio,
  camera: FtpCamera,
  size: FrameSize,
): Promise<StandInSummary> {
  const first = options.firstOrdinal ?? (await readCounter(options.cacheDir));
  const plan = planFrames({ ...options, shots: options.shots ?? shotNames });
  const frames: SentFrame[] = [];
  let prepared = prepare(studio, plan[0]);
  let lastShutterMs = Number.NEGATIVE_INFINITY;
  for (const [index, recipe] of plan.entries()) {
    await prepared;
    await idle(camera, lastShutterMs + options.intervalMs - options.now(), options.signal);
    const shutterMs = options.now();
    lastShutterMs = shutterMs;
    const frame = await shootFrame(studio, size, recipe, shutterMs);
    prepared = prepare(studio, plan[index + 1]);
    frames.push(await deliver(options, camera, frame, { ordinal: first + index, recipe, shutterMs }));
    await writeCounter(options.cacheDir, first + index + 1);
  }
  await studio.settle();
  options.onProgress({ code: 'stand-in.done', args: { frames: frames.length } });
  return { frames, nextOrdinal: first + plan.length };
}

interface Placing {
  readonly ordinal: number;
  readonly recipe: FrameRecipe;
  readonly shutterMs: EpochMs;
}

async function deliver(
  { onProgress }: StandInOptions,
  camera: FtpCamera,
  { bytes, truth }: Frame,
  { ordinal, recipe, shutterMs }: Placing,
): Promise<SentFrame> {
  const name = dcfName(ordinal);
  const about = { name: name.file, bytes: bytes.length };
  onProgress({ code: 'stand-in.shot', args: { ...about, shot: truth.shot, purpose: truth.purpose } });
  const cutPercent = faultValue(recipe.faults, 'cut');
  const cut = cutPercent === undefined ? {} : { cutAt: cutPercent / 100 };
  const sent = await camera.send({ name, bytes, ...cut }).then(
    () => true,
    (failure: unknown) => {
      if (failure instanceof SetsideError && failure.code === standInErrorCodes.uploadFailed) return false;
      throw failure;
    },
  );
  if (sent) onProgress({ code: 'stand-in.sent', args: about });
  return { path: `${name.folder}/${name.file}`, sizeBytes: bytes.length, shutterMs, sent, truth };
}

/** Renders ahead. A failure is met again, and thrown, when the frame is really wanted. */
function prepare(studio: Studio, recipe: FrameRecipe | undefined): Promise<void> {
  return recipe === undefined ? Promise.resolve() : studio.prepare(recipe).catch(() => {});
}

async function idle(camera: FtpCamera, ms: number, signal: AbortSignal): Promise<void> {
  for (let left = ms; left > 0; left -= keepAliveMs) {
    await wait(Math.min(left, keepAliveMs), undefined, { signal });
    if (left > keepAliveMs) await camera.keepAlive();
  }
}

function checkOptions(options: StandInOptions): void {
  const { frames, sizeMegapixels, paceBytesPerSecond } = options;
  const wrong = (name: string, expected: string, got: number): SetsideError =>
    new SetsideError(standInErrorCodes.wrongOption, `expected ${name} ${expected}, got ${got}`, {
      details: { name },
    });
  if (!(Number.isInteger(frames) && frames >= 1 && frames <= 100_000))
    throw wrong('frames', '1 to 100000', frames);
  if (!(sizeMegapixels >= 0.05 && sizeMegapixels <= 24))
    throw wrong('sizeMegapixels', '0.05 to 24', sizeMegapixels);
  if (!(paceBytesPerSecond > 0)) throw wrong('paceBytesPerSecond', 'above 0', paceBytesPerSecond);
}
