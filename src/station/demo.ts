import { join } from 'node:path';
import type { EpochMs } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import type { Keep } from '../keep/index.ts';
import { defaultPaceBytesPerSecond, defaultSizeMegapixels, runStandIn } from '../stand-in/index.ts';
import type { Camera } from './cameras/core/camera.ts';
import { DemoPhotographer } from './demo-photographer.ts';
import { describeTrouble, type StationLog } from './station-log.ts';

export interface DemoOptions {
  readonly homePath: string;
  readonly ftpPort: number;
  readonly cameras: readonly Camera[];
  readonly now: () => EpochMs;
  readonly keep: Keep;
  /** Where the station answers, for the calls. */
  readonly webUrl: string;
  readonly log: StationLog;
  /** What the stand-in does. */
  readonly onStandIn: (progress: Finding) => void;
}

/** From one shutter to the next: product photography leaves time to look (common practice, no source). */
const intervalMs = 8000;
/** Eight for each of the six shots: some six minutes, and half a gigabyte of disk. */
const frames = 48;

/**
 * Lets the stand-in shoot the demo's job into this very station, over real FTP at a fair Wi-Fi's pace, and says what a
 * photographer would say of it on the page: by the same calls. Gives what ends it; a failure is logged, and the station goes
 * on without it.
 */
export function startDemo(options: DemoOptions): () => Promise<void> {
  const camera = options.cameras[0];
  if (camera === undefined) return async () => {};
  const stop = new AbortController();
  const photographer = new DemoPhotographer(options.webUrl, stop.signal);
  const log = (thrown: unknown): void => {
    if (!stop.signal.aborted) options.log('error', describeTrouble(thrown));
  };
  const stopListening = options.keep.on((event) => {
    if (event.type === 'kept') photographer.framesCame(event.name, event.frame).catch(log);
  });
  const ended = shoot(options, camera, photographer, stop.signal).catch(log);
  return async () => {
    stop.abort(new Error('the station stops'));
    await ended;
    stopListening();
  };
}

async function shoot(
  options: DemoOptions,
  camera: Camera,
  photographer: DemoPhotographer,
  signal: AbortSignal,
): Promise<void> {
  await runStandIn({
    host: '127.0.0.1',
    port: options.ftpPort,
    accounts: [camera],
    paceBytesPerSecond: defaultPaceBytesPerSecond,
    frames,
    intervalMs,
    cacheDir: join(options.homePath, 'renderings', 'stand-in'),
    seed: 26,
    sizeMegapixels: defaultSizeMegapixels,
    now: options.now,
    signal,
    beforeShot: (shot) => photographer.goOn(shot),
    onProgress: (progress) => {
      const { name, shot, purpose } = progress.args;
      if (progress.code === 'stand-in.shot')
        photographer.pressed(String(name), String(shot), String(purpose));
      options.onStandIn(progress);
    },
  });
}
