/** What a session can be told, what it is told where nothing is said, and what it refuses. */
import { type EpochMs, SetsideError } from '../base/index.ts';
import { bodiesMax } from './core/camera-body.ts';
import type { FaultOrder } from './core/faults.ts';
import type { FileKind } from './core/file-kinds.ts';
import { type HoldOrder, type ShotName, shotNames } from './core/frame-plan.ts';
import { standInErrorCodes } from './errors.ts';
import type { RawCompression } from './frame.ts';
import type { Secure } from './ftp-camera.ts';
import type { OnProgress } from './progress.ts';
import type { AfterBreak } from './sending.ts';
import type { SentFrame } from './sent-frame.ts';

export interface Account {
  readonly user: string;
  readonly password: string;
}

export interface StandInOptions {
  /** Where the station's door is, the one for {@link protocol}. */
  readonly host: string;
  readonly port: number;
  /** Log-ins, one or more: the first camera takes the first, and so on, and after the last the first again. */
  readonly accounts: readonly Account[];
  /** Default: plain FTP. */
  readonly secure?: Secure;
  /** Bytes per second of each camera; Infinity for as fast as the line takes it. 4,000,000 is a fair Wi-Fi. */
  readonly paceBytesPerSecond: number;
  /** Frames of each camera in all, shared out over the shots; 1 to 100,000. */
  readonly frames: number;
  /** From one shutter, or burst, to the next, at least; a frame that is not yet sent or rendered makes it longer. */
  readonly intervalMs: number;
  /** Renderings and the cameras' counters are kept here; made where it does not exist. */
  readonly cacheDir: string;
  /** 32 bits; the same seed shoots the same frames. */
  readonly seed: number;
  /** 0.05 to 24; 6 gives 3000 x 2000. */
  readonly sizeMegapixels: number;
  /** The cameras' clock, where no fault puts it wrong. */
  readonly now: () => EpochMs;
  readonly signal: AbortSignal;
  readonly onProgress: OnProgress;
  /** Told of each frame when its last file is acknowledged or given up. */
  readonly onFrame?: (frame: SentFrame) => void;
  /** Awaited before the first shutter of each shot, camera by camera: what a photographer does between two shots. */
  readonly beforeShot?: (shot: ShotName) => Promise<void>;
  /** Default: the whole shot list. */
  readonly shots?: readonly ShotName[];
  /** Cameras that shoot the same list at the same time; 1 to 8, default 1. */
  readonly cameras?: number;
  /** Frames that follow each other within one second; 1 to 10, default 1. */
  readonly burst?: number;
  /** Files of each frame in the order they are sent; default the raw alone. */
  readonly files?: readonly FileKind[];
  /** How the raw data is written; default `lossless-jpeg`. */
  readonly compression?: RawCompression;
  /** What goes wrong on purpose, on the first camera; frames count from 1. Default: nothing. */
  readonly faults?: readonly FaultOrder[];
  /** What is held into frames of the first camera, which count from 1. Default: nothing. */
  readonly hold?: readonly HoldOrder[];
  /** Ordinal of the first frame; default: where the counter in `cacheDir` stands. */
  readonly firstOrdinal?: number;
  /** What the cameras speak; default `ftp`. */
  readonly protocol?: 'ftp' | 'sftp';
  /** How often a broken upload is sent again; default 3. */
  readonly retries?: number;
  /** How long a camera waits before that; default 2000. */
  readonly resendAfterMs?: number;
  /** Default `resume`. */
  readonly afterBreak?: AfterBreak;
  /** Render threads; default one per processor up to 4, 0 renders on this thread. */
  readonly threads?: number;
}

/** {@link StandInOptions} with nothing missing. */
export type ResolvedStandInOptions = Required<Omit<StandInOptions, 'firstOrdinal' | 'threads'>> & {
  readonly firstOrdinal: number | null;
};

export const defaultPaceBytesPerSecond = 4_000_000;
export const defaultSizeMegapixels = 6;
/** Ten frames of 24 megapixels that are being sent and ten that are ready take some 600 MB. */
export const burstMax = 10;

/** Fills in what was not said. Throws `stand-in-wrong-option`. */
export function resolveOptions({ threads: _, ...wishes }: StandInOptions): ResolvedStandInOptions {
  const options = {
    onFrame: () => {},
    beforeShot: async () => {},
    secure: { how: 'no', ca: null } as const,
    shots: shotNames,
    cameras: 1,
    burst: 1,
    files: ['raw'] as const,
    compression: 'lossless-jpeg' as const,
    faults: [],
    hold: [],
    protocol: 'ftp' as const,
    retries: 3,
    resendAfterMs: 2000,
    afterBreak: 'resume' as const,
    firstOrdinal: null,
    ...wishes,
  };
  checkOptions(options);
  return options;
}

function checkOptions(options: ResolvedStandInOptions): void {
  const { frames, sizeMegapixels, paceBytesPerSecond, cameras, burst, files, accounts } = options;
  const whole = (name: string, got: number, most: number): void => {
    if (!(Number.isInteger(got) && got >= 1 && got <= most)) throw wrongOption(name, `1 to ${most}`, got);
  };
  whole('frames', frames, 100_000);
  whole('cameras', cameras, bodiesMax);
  whole('burst', burst, burstMax);
  whole('accounts', accounts.length, bodiesMax);
  if (!(sizeMegapixels >= 0.05 && sizeMegapixels <= 24))
    throw wrongOption('sizeMegapixels', '0.05 to 24', sizeMegapixels);
  if (!(paceBytesPerSecond > 0)) throw wrongOption('paceBytesPerSecond', 'above 0', paceBytesPerSecond);
  if (files.length === 0 || new Set(files).size < files.length)
    throw wrongOption('files', 'each kind once, one at least', files.join());
}

function wrongOption(name: string, expected: string, got: number | string): SetsideError {
  return new SetsideError(standInErrorCodes.wrongOption, `expected ${name} ${expected}, got ${got}`, {
    details: { name },
  });
}
