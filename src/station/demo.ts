import { join } from 'node:path';
import type { EpochMs } from '../base/index.ts';
import type { JobSummary } from '../contract/index.ts';
import type { Finding } from '../facts/index.ts';
import {
  defaultPaceBytesPerSecond,
  defaultSizeMegapixels,
  runStandIn,
  shotNames,
} from '../stand-in/index.ts';
import type { Camera } from './cameras.ts';

/** The demo's job: an invented pottery, so that nobody's real work is shown. */
export const demoJob: JobSummary = {
  code: 'QM-26',
  title: 'Autumn catalogue',
  client: 'Quillmere Ceramics',
  shots: shotNames.map((name) => ({ id: name, name: shotTitle(name) })),
};

function shotTitle(name: string): string {
  const words = name.replaceAll(/[-_]/g, ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

export interface DemoOptions {
  readonly homePath: string;
  readonly ftpPort: number;
  readonly camera: Camera;
  readonly now: () => EpochMs;
  readonly signal: AbortSignal;
  readonly onProgress: (progress: Finding) => void;
}

/** From one shutter to the next: product photography leaves time to look (common practice, no source). */
const intervalMs = 8000;
/** Half an hour at that pace: whoever still watches then has seen it. */
const frames = 220;

/** Lets the stand-in shoot the demo's job into this very station, over real FTP at a fair Wi-Fi's pace. */
export async function runDemo(options: DemoOptions): Promise<void> {
  await runStandIn({
    host: '127.0.0.1',
    port: options.ftpPort,
    user: options.camera.user,
    password: options.camera.password,
    paceBytesPerSecond: defaultPaceBytesPerSecond,
    frames,
    intervalMs,
    cacheDir: join(options.homePath, 'renderings', 'stand-in'),
    seed: 26,
    sizeMegapixels: defaultSizeMegapixels,
    now: options.now,
    signal: options.signal,
    onProgress: options.onProgress,
  });
}
