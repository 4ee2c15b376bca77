import { join } from 'node:path';
import type { EpochMs } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import type { Keep } from '../keep/index.ts';
import { defaultPaceBytesPerSecond, defaultSizeMegapixels, runStandIn } from '../stand-in/index.ts';
import type { Camera } from './cameras/core/camera.ts';
import type { FrameFlow } from './frame-flow.ts';
import { describeTrouble, type StationLog } from './station-log.ts';

export interface DemoOptions {
  readonly homePath: string;
  readonly ftpPort: number;
  readonly cameras: readonly Camera[];
  readonly now: () => EpochMs;
  readonly keep: Keep;
  readonly flow: FrameFlow;
  readonly log: StationLog;
  /** What the stand-in does. */
  readonly onStandIn: (progress: Finding) => void;
}

/** From one shutter to the next: product photography leaves time to look (common practice, no source). */
const intervalMs = 8000;
/** Eight for each of the six shots: some six minutes, and half a gigabyte of disk. */
const frames = 48;

/**
 * Lets the stand-in shoot the demo's job into this very station, over real FTP at a fair Wi-Fi's pace. Gives what ends
 * it; a failure is logged, and the station goes on without it.
 */
export function startDemo(options: DemoOptions): () => Promise<void> {
  const camera = options.cameras[0];
  if (camera === undefined) return async () => {};
  const stop = new AbortController();
  const shots = new Map<string, string>();
  const stopSorting = sortIntoShots(options, shots);
  const ended = shoot(options, camera, shots, stop.signal).catch((thrown: unknown) => {
    if (!stop.signal.aborted) options.log('error', describeTrouble(thrown));
  });
  return async () => {
    stop.abort(new Error('the station stops'));
    await ended;
    stopSorting();
  };
}

async function shoot(
  options: DemoOptions,
  camera: Camera,
  shots: Map<string, string>,
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
    onProgress: (progress) => {
      const { name, shot } = progress.args;
      if (progress.code === 'stand-in.shot' && typeof name === 'string' && typeof shot === 'string') {
        shots.set(name, shot);
      }
      options.onStandIn(progress);
    },
  });
}

/** The stand-in says which shot it took under which name; a real camera cannot, and shots are not chosen here yet. */
function sortIntoShots({ keep, flow, log }: DemoOptions, shots: ReadonlyMap<string, string>): () => void {
  return keep.on((event) => {
    const shot = event.type === 'kept' ? shots.get(event.name) : undefined;
    if (shot === undefined) return;
    keep
      .append({ type: 'shot-set', frame: event.frame, shot })
      .then(() => flow.changed(event.frame, 'read'))
      .catch((thrown: unknown) => log('error', describeTrouble(thrown)));
  });
}
