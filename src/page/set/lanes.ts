import type { Frame } from '../../contract/index.ts';
import { momentOf } from '../state/index.ts';

/** Which cameras have a lane of the rail. */
export interface Lanes {
  /** Every camera that frames came from: those that shoot by name, then those that are silent by name. */
  readonly cameras: readonly string[];
  /** How many of them shoot. */
  readonly shooting: number;
  /** Lanes there are, at least one; cameras beyond the last share it. */
  readonly count: number;
}

/** A camera that was laid down does not keep its room: so long before the newest frame its last one was taken. */
export const silentMs = 3_600_000;

/** The lanes for these frames, of which there is room for `lanesMax`. */
export function lanesOf(frames: readonly Frame[], lanesMax: number): Lanes {
  const lastMs = new Map<string, number>();
  for (const frame of frames)
    lastMs.set(frame.camera, Math.max(momentOf(frame), lastMs.get(frame.camera) ?? 0));
  const newestMs = Math.max(0, ...lastMs.values());
  const isSilent = (camera: string): boolean => newestMs - (lastMs.get(camera) ?? 0) > silentMs;
  const names = [...lastMs.keys()].sort();
  const shooting = names.filter((camera) => !isSilent(camera));
  return {
    cameras: [...shooting, ...names.filter(isSilent)],
    shooting: shooting.length,
    count: Math.min(Math.max(1, shooting.length), lanesMax),
  };
}

export function laneOfCamera(camera: string, { cameras, count }: Lanes): number {
  return Math.min(Math.max(0, cameras.indexOf(camera)), count - 1);
}

/** Whether a frame must name its camera, since its lane does not: several that shoot share it, or it is a silent one's. */
export function mustNameCamera(camera: string, { cameras, shooting, count }: Lanes): boolean {
  const index = cameras.indexOf(camera);
  return index >= shooting || (shooting > count && index >= count - 1);
}
