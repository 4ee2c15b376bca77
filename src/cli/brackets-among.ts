import { findSeries, type TimedFrame } from '../job/index.ts';
import { captureFactsOf } from '../metadata/index.ts';
import { inspectOnDisk } from '../workers/index.ts';

/** Paths of the files that are of one bracket or another, by what they say of themselves. What cannot be read is of none. */
export async function bracketsAmong(paths: readonly string[]): Promise<ReadonlySet<string>> {
  const frames: TimedFrame[] = [];
  for (const path of paths) {
    const frame = await timedFile(path);
    if (frame !== null) frames.push(frame);
  }
  const brackets = findSeries(frames).filter(({ kind }) => kind === 'bracket');
  return new Set(brackets.flatMap(({ frames: of }) => of));
}

async function timedFile(path: string): Promise<TimedFrame | null> {
  const inspection = await inspectOnDisk(path).catch(() => null);
  if (inspection === null) return null;
  const { shutter, exposureTimeS, fNumber, sensitivity, cameraSerial, cameraModel } = captureFactsOf(
    inspection,
    { zoneOffsetMinutes: 0 },
  );
  if (shutter === undefined) return null;
  return {
    id: path,
    camera: cameraSerial ?? cameraModel ?? '',
    shutterMs: shutter.atMs,
    subSecondsKnown: shutter.subSecondsKnown,
    exposureTimeS: exposureTimeS ?? null,
    fNumber: fNumber ?? null,
    sensitivity: sensitivity ?? null,
  };
}
